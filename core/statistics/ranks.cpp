#include "core/statistics/ranks.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace statistics
{

std::vector<double> ranks(std::span<const double> values)
{
    std::vector<size_t> order(values.size());
    std::iota(order.begin(), order.end(), size_t(0));
    std::ranges::sort(order, {}, [&](size_t place) { return values[place]; });
    std::vector<double> found(values.size());
    for (size_t first = 0; first < order.size();) {
        size_t end = first + 1;
        while (end < order.size() && !(values[order[first]] < values[order[end]]))
            ++end;
        for (size_t place = first; place < end; ++place)
            found[order[place]] = double(first + 1 + end) / 2;
        first = end;
    }
    return found;
}

double rankCorrelation(std::span<const double> first, std::span<const double> second)
{
    const std::vector<double> a = ranks(first);
    const std::vector<double> b = ranks(second);
    const double middle = double(a.size() + 1) / 2;
    double together = 0;
    double ofA = 0;
    double ofB = 0;
    for (size_t place = 0; place < a.size(); ++place) {
        together += (a[place] - middle) * (b[place] - middle);
        ofA += std::pow(a[place] - middle, 2);
        ofB += std::pow(b[place] - middle, 2);
    }
    return ofA > 0 && ofB > 0 ? together / std::sqrt(ofA * ofB) : 0;
}

} // namespace statistics
