#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/occasion.h"

namespace records
{

/// What a computed measure comes to at one visit, worked out from its parts whether or not it was entered
/// too; `computedFrom` says how. Where a part is missing the value is Missing{NotAsked} and the reason names
/// the part. Its conditions are those of its parts: what differs between them is written "10 / 4", and what
/// one of them does not record is not recorded. Empty where the measure is not computed, or no part of it was
/// done or tried.
///
/// - Speed, cadence and step length: a walk that was tried and could not be done makes them unable. A speed
///   and a step length follow from each trial and then from the part's trial rule.
/// - Sum of items: a part with sides enters with the mean of right and left; an item that could not be
///   tested leaves the sum missing. So is the total of the scale for the assessment and rating of ataxia,
///   Schmitz-Hübsch 2006, Neurology 66:1717 (from memory).
/// - Short battery: see short_battery.h; a part that was tried and unable scores 0.
/// - Dual-task cost: 100 · (dual − single) / single of the times: the share by which the task makes the walk
///   longer (common practice, no source).
std::optional<Occasion> derived(const Visit& visit, const catalogue::Measure& measure,
                                const catalogue::Catalogue& catalogue);

} // namespace records
