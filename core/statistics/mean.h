#pragma once

#include <numeric>
#include <span>

namespace statistics
{

/// Arithmetic mean; of at least one number.
inline double mean(std::span<const double> numbers)
{
    return std::accumulate(numbers.begin(), numbers.end(), 0.0) / static_cast<double>(numbers.size());
}

} // namespace statistics
