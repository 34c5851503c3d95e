#pragma once

#include <span>
#include <vector>

namespace statistics
{

/// Ranks from 1; equal values share the mean of their ranks.
std::vector<double> ranks(std::span<const double> values);

/// Spearman: the correlation of the ranks. 0 where one side does not vary. Of equal lengths.
double rankCorrelation(std::span<const double> first, std::span<const double> second);

} // namespace statistics
