#pragma once

#include <optional>
#include <span>
#include <tuple>
#include <vector>

namespace statistics
{

/// How the visits of one measure are watched for change: so many visits share a chance of a false flag, and
/// after them a plan of as many begins, with a chance of its own.
struct Plan {
    int visits = 8;      ///< 3 or more
    double level = 0.05; ///< of stable people flagged within the visits of one plan; above 0 and below 1

    bool operator==(const Plan&) const = default;
    bool operator<(const Plan& other) const
    {
        return std::tie(visits, level) < std::tie(other.visits, other.level);
    }
};

/// Visits are counted from 1. From these on there is a slope, a turn.
inline constexpr int firstSlope = 3;
inline constexpr int firstTurn = 4;

/// What must be exceeded at one visit. Empty where there is nothing yet to look at.
struct VisitBounds {
    std::optional<double> trend; ///< |slope / its standard error|
    std::optional<double> turn;  ///< size of the turn / standard error of one value
};

/// The share of stable people whose trend was flagged within the plan of this visit, up to it. In the first
/// plan four fifths of the level, spent as the third power of the share of its visits that lie behind
/// (Kim & DeMets 1987, Biometrika 74:149, from memory), as early slopes rest on little; in later ones, whose
/// slopes rest on much, three fifths, evenly. The rest is the turn's. 0 below three visits.
double trendSpent(int visit, const Plan& plan);

/// The share of stable people whose turn was flagged within the plan of this visit, up to it, whether their
/// trend was or not. For evenly spaced visits.
double turnSpent(int visit, const Plan& plan);

/// Rules that are looked at from the fifth visit on and whose looks share the level of a plan without
/// counting on their correlation: up to this visit they may have flagged so many stable people within its
/// plan, and at it alone so many. 0 below the fifth visit.
inline constexpr int firstSharing = 5;
double sharedSpent(int visit, const Plan& plan);
double sharedDue(int visit, const Plan& plan);

/// What |slope / its standard error| must exceed at each visit of a run whose error is known: exact for these
/// times. Empty below the third visit.
std::vector<std::optional<double>> trendBounds(std::span<const double> times, const Plan& plan);

/// The bounds at each visit of a run. Those of the trend are exact for these times, those of the turn for
/// even spacing: with both a plan flags its level (see tests/bench, rule-rates, for uneven spacing). From the
/// fifth visit on the error is drawn toward the person's own scatter and no longer known, and each bound goes
/// at the same probability through the t distribution. A bound depends on its own and earlier visits only.
/// Empty unless times rise and the plan is in its ranges.
std::vector<VisitBounds> boundsAt(std::span<const double> times, const Plan& plan);

} // namespace statistics
