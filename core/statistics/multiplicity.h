#pragma once

#include <span>
#include <vector>

namespace statistics
{

/// How many of so many stable results are flagged by error alone, each judged at this confidence.
double expectedFalseFlags(int judged, double confidence);

/// The most of stable people who have at least one false flag among so many tests that each flag this share,
/// as long as what they measure does not oppose each other: 1 − (1 − share)ⁿ (Šidák 1967, J Am Stat Assoc
/// 62:626, from memory).
double atLeastOneFalse(int tests, double share);

/// Which findings stay while the expected share of false ones among them is held at `rate`, for two-sided
/// p values. Benjamini & Hochberg 1995, J R Stat Soc B 57:289.
std::vector<bool> benjaminiHochberg(std::span<const double> p, double rate);

/// How often all of so many stable results together show as much: the least of m · p / rank over the sorted
/// two-sided p. Simes 1986, Biometrika 73:751, from memory. 1 for none.
double simes(std::span<const double> p);

} // namespace statistics
