#pragma once

#include "core/judging/comparison.h"
#include "core/statistics/plan.h"

namespace judging
{

/// The last number of a run against the mean of the earlier ones, in their own scatter: a day's last result
/// each, those at a cap left out. It is looked at anew at every visit from the fifth on, so that over the
/// visits of a plan fewer than its level of stable people are flagged. Empty below four earlier numbers, and
/// where the last one is none or lies at its cap.
std::optional<OwnScatter> ownScatterOf(const std::vector<const records::Occasion*>& run,
                                       const catalogue::Measure& measure, const statistics::Plan& plan);

/// Judges a comparison that no error is known for by the patient's own scatter.
void judgeByOwn(Comparison& held, const OwnScatter& own, const statistics::Plan& plan,
                catalogue::Direction better);

} // namespace judging
