#include "core/statistics/quartiles.h"

#include <algorithm>
#include <cmath>

namespace statistics
{

namespace
{

/// `at` gives the value of sorted numbers below which a share of them lies.
template <class At>
std::optional<Quartiles> quartilesBy(std::vector<double> numbers, At at)
{
    if (numbers.empty())
        return std::nullopt;
    std::ranges::sort(numbers);
    return Quartiles{at(numbers, 0.25), at(numbers, 0.5), at(numbers, 0.75)};
}

double between(const std::vector<double>& sorted, double share)
{
    const double place = share * double(sorted.size() - 1);
    const auto below = size_t(place);
    const auto above = std::min(below + 1, sorted.size() - 1);
    return sorted[below] + (place - double(below)) * (sorted[above] - sorted[below]);
}

double oneOf(const std::vector<double>& sorted, double share)
{
    return sorted[size_t(std::ceil(share * double(sorted.size()))) - 1];
}

} // namespace

std::optional<Quartiles> quartiles(std::vector<double> numbers)
{
    return quartilesBy(std::move(numbers), between);
}

std::optional<Quartiles> quartilesOfSteps(std::vector<double> steps)
{
    return quartilesBy(std::move(steps), oneOf);
}

} // namespace statistics
