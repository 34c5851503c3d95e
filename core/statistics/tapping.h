#pragma once

#include <optional>
#include <span>

namespace statistics
{

/// What a run of taps says about rate and rhythm.
struct Tapping {
    double perSecond = 0;            ///< intervals a second, from the first tap to the last
    double meanInterval = 0;         ///< s
    std::optional<double> variation; ///< coefficient of variation of the intervals, SD (n − 1) over mean, %.
                                     ///< Empty for one interval
    double longest = 0;            ///< s: the longest interval
    std::optional<double> slowing; ///< by how much the last third's mean interval lies above the first
                                   ///< third's, %. Our own definition (common practice, no source). Empty
                                   ///< under 9 intervals
};

/// Of the instants of taps (s). Empty for fewer than two, or where they do not rise.
std::optional<Tapping> tapping(std::span<const double> taps);

/// 100 · (R − L) / ((R + L) / 2), in percent: above 0 where the right is larger. Common practice, no source.
/// Empty where the mean is 0.
std::optional<double> asymmetry(double right, double left);

} // namespace statistics
