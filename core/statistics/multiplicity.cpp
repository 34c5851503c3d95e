#include "core/statistics/multiplicity.h"

#include <algorithm>
#include <cmath>

namespace statistics
{

double expectedFalseFlags(int judged, double confidence)
{
    return judged * (1 - confidence);
}

double atLeastOneFalse(int tests, double share)
{
    return 1 - std::pow(1 - share, tests);
}

std::vector<bool> benjaminiHochberg(std::span<const double> p, double rate)
{
    std::vector<double> sorted(p.begin(), p.end());
    std::ranges::sort(sorted);
    size_t kept = sorted.size();
    while (kept > 0 && !(sorted[kept - 1] <= rate * double(kept) / double(sorted.size())))
        --kept;
    std::vector<bool> stays(p.size(), false);
    for (size_t place = 0; place < p.size(); ++place)
        stays[place] = kept > 0 && p[place] <= sorted[kept - 1];
    return stays;
}

double simes(std::span<const double> p)
{
    std::vector<double> sorted(p.begin(), p.end());
    std::ranges::sort(sorted);
    double least = 1;
    for (size_t place = 0; place < sorted.size(); ++place)
        least = std::min(least, sorted[place] * double(sorted.size()) / double(place + 1));
    return least;
}

} // namespace statistics
