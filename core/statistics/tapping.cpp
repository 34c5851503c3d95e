#include "core/statistics/tapping.h"

#include "core/statistics/mean.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

namespace statistics
{

namespace
{

constexpr size_t fewestForSlowing = 9;

double deviation(std::span<const double> numbers)
{
    const double middle = mean(numbers);
    double squares = 0;
    for (const double number : numbers)
        squares += (number - middle) * (number - middle);
    return std::sqrt(squares / static_cast<double>(numbers.size() - 1));
}

} // namespace

std::optional<Tapping> tapping(std::span<const double> taps)
{
    if (taps.size() < 2)
        return std::nullopt;
    std::vector<double> intervals;
    for (size_t tap = 1; tap < taps.size(); ++tap) {
        if (!(taps[tap] > taps[tap - 1]))
            return std::nullopt;
        intervals.push_back(taps[tap] - taps[tap - 1]);
    }
    Tapping run;
    run.meanInterval = mean(intervals);
    run.longest = *std::ranges::max_element(intervals);
    run.perSecond = 1 / run.meanInterval;
    if (intervals.size() > 1)
        run.variation = 100 * deviation(intervals) / run.meanInterval;
    if (intervals.size() >= fewestForSlowing) {
        const std::span<const double> all(intervals);
        const size_t third = intervals.size() / 3;
        const double first = mean(all.first(third));
        run.slowing = 100 * (mean(all.last(third)) - first) / first;
    }
    return run;
}

std::optional<double> asymmetry(double right, double left)
{
    const double middle = (right + left) / 2;
    if (middle == 0)
        return std::nullopt;
    return 100 * (right - left) / middle;
}

} // namespace statistics
