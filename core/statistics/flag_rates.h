#pragma once

#include "core/statistics/plan.h"

namespace statistics
{

/// What raises a flag over several visits of one measure.
enum class FlagRule {
    FirstVisit,    ///< beyond error against the first visit
    PreviousVisit, ///< beyond error against the visit before
    BestVisit,     ///< beyond error against the best visit so far (one direction: worse)
    Confirmed,     ///< beyond error against the first visit, and again the same way at the next visit
    Trend,         ///< the slope beyond its sequential bound
    Turn,          ///< the last two visits beyond the turn's bound from the best or the worst two before
    Order,         ///< the order of all values, by permutation
    OwnScatter     ///< beyond the person's own scatter from the mean of the earlier visits
};

/// The share of people who are truly stable that the rule flags at least once within so many visits, each
/// erring by the same known standard error and judged at 95 %; of the last four within the plan the last of
/// them lies in, of the last two at most. Pairs of visits: exact, by following from visit to visit what is
/// left unflagged. Empty for fewer than two visits and for a plan out of its ranges.
std::optional<double> falseFlagRate(FlagRule rule, int visits, const Plan& plan = {});

} // namespace statistics
