#pragma once

#include <span>
#include <vector>

namespace statistics
{

/// How many of so many stable results are flagged by error alone, each judged at this confidence.
double expectedFalseFlags(int judged, double confidence);

/// Which findings stay while the expected share of false ones among them is held at `rate`, for two-sided
/// p values. Benjamini & Hochberg 1995, J R Stat Soc B 57:289.
std::vector<bool> benjaminiHochberg(std::span<const double> p, double rate);

} // namespace statistics
