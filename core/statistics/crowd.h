#pragma once

#include "core/statistics/plan.h"
#include "core/statistics/trend.h"
#include "core/statistics/turn.h"

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/normal_distribution.hpp>

namespace statistics
{

/// Stable people, made up, whose visits come evenly spaced and err by 1: what no formula gives of turns is
/// counted among them. The same people on every machine.
class Crowd
{
public:
    explicit Crowd(const Plan& plan);

    /// What the size of a turn must exceed in this plan, counted from 0, so that trend and turn together flag
    /// the level of the plan. Empty where nobody has a turn within it.
    std::optional<double> turnBound(int plan);
    /// The share of the people whose turn has exceeded it by each visit of the plan.
    const std::vector<double>& turnSpent(int plan);

private:
    struct Person {
        GrowingSlope slope;
        GrowingTurn turn;
    };
    struct Found {
        std::optional<double> bound;
        std::vector<double> spent;
    };

    const Found& found(int plan);
    Found watchNextPlan();

    Plan m_plan;
    boost::random::mt19937 m_engine;
    boost::random::normal_distribution<double> m_normal; ///< the same on every machine, unlike the standard's
    std::vector<Person> m_people;
    std::vector<Found> m_found;
};

} // namespace statistics
