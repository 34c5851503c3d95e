#pragma once

#include "core/judging/comparison.h"

namespace judging
{

/// The value at which a difference from the reference equals its limit for the better or for the worse. A
/// limit may depend on the later value itself (a share of the mean of both). Infinite where no value gives
/// one.
double valueAtLimit(const Applied& threshold, double reference, bool isForTheBetter,
                    catalogue::Direction better);

/// The ways in which no value up to the end of the measure's scale, or up to its cap, would be beyond error.
CannotShow cannotShow(const Applied& threshold, double reference, const catalogue::Measure& measure);

/// Stopped at the measure's cap, so that the result is at least that; also where only the number tells.
bool isAtCap(const records::Finding& finding, const catalogue::Measure& measure);

/// The difference in units of its limit, positive for the better. Empty where there is no threshold.
std::optional<double> inLimits(const Comparison& comparison, catalogue::Direction better);

} // namespace judging
