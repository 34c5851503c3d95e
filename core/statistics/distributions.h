#pragma once

namespace statistics
{

/// The cumulative probability at the upper end of a two-sided 95 % interval.
inline constexpr double upperTail = 0.975;

/// Quantiles at a cumulative probability strictly between 0 and 1; degrees of freedom above 0.
double studentQuantile(double probability, double degrees);
double chiSquareQuantile(double probability, double degrees);
double fisherQuantile(double probability, double degrees1, double degrees2);

/// Both tails of Student's t beyond ±t; t not below 0.
double studentShareBeyond(double t, double degrees);

/// The standard normal distribution: the share below `z`, and the value with this share below it.
double normalShareBelow(double z);
double normalValueAt(double probability);

} // namespace statistics
