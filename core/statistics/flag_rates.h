#pragma once

#include <optional>

namespace statistics
{

/// What raises a flag over several visits of one measure.
enum class FlagRule {
    FirstVisit,    ///< beyond error against the first visit
    PreviousVisit, ///< beyond error against the visit before
    BestVisit,     ///< beyond error against the best visit so far (one direction: worse)
    Confirmed,     ///< beyond error against the first visit, and again the same way at the next visit
    Sequential     ///< the slope beyond its sequential bound
};

/// What the simulation was made with: this plan for the sequential rule, and up to so many visits.
inline constexpr int simulatedPlan = 8;
inline constexpr int mostSimulatedVisits = 20;

/// The share of people who are truly stable that the rule flags at least once within so many visits, each
/// erring by the same standard error and judged at 95 %. By simulation (tests/bench, rule-rates); at 2 to 20
/// visits, beyond that of 20, which is then the least it can be. For a sequential rule with another plan than
/// eight visits the most it can be: all that its looks up to then may spend. Empty for fewer than two visits,
/// and for a plan without a look.
std::optional<double> falseFlagRate(FlagRule rule, int visits, int plannedVisits = simulatedPlan);

} // namespace statistics
