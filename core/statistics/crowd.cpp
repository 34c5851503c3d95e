#include "core/statistics/crowd.h"

#include "core/statistics/sequential.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <limits>

namespace statistics
{

namespace
{

constexpr size_t people = 50'000;

/// The bounds of the trend at the visits of the plan that begins after so many, evenly spaced; infinite
/// below the third visit.
std::vector<double> evenBounds(int before, const Plan& plan)
{
    std::vector<double> bounds;
    std::vector<Stage> stages;
    for (int visit = before + 1; visit <= before + plan.visits; ++visit) {
        const double n = visit;
        if (visit < firstSlope)
            bounds.push_back(std::numeric_limits<double>::infinity());
        else
            stages.push_back({n * (n * n - 1) / 12, trendSpent(visit, plan)});
    }
    std::ranges::copy(sequentialBounds(stages), std::back_inserter(bounds));
    return bounds;
}

/// One person's turn, larger than all before it in this plan.
struct Record {
    size_t person = 0;
    int visit = 0; ///< within the plan, from 0
    double size = 0;
};

/// What so many of those whose trend was not flagged exceed.
std::optional<double> boundOf(const std::vector<double>& largest, const std::vector<bool>& isFlagged,
                              double share)
{
    std::vector<double> sizes;
    for (size_t person = 0; person < people; ++person) {
        if (!isFlagged[person] && largest[person] > 0)
            sizes.push_back(largest[person]);
    }
    const auto beyond = size_t(share * double(people));
    if (sizes.size() <= beyond)
        return std::nullopt;
    const auto place = sizes.begin() + std::ptrdiff_t(beyond);
    std::ranges::nth_element(sizes, place, std::greater<>());
    return *place;
}

/// The share of people whose turn has exceeded the bound by each visit.
std::vector<double> spentBy(const std::vector<Record>& records, double bound, int visits)
{
    std::vector<double> spent(size_t(visits), 0.0);
    std::vector<bool> isCounted(people, false);
    for (const Record& record : records) {
        if (!(record.size > bound) || isCounted[record.person])
            continue;
        isCounted[record.person] = true;
        spent[size_t(record.visit)] += 1.0 / double(people);
    }
    for (size_t visit = 1; visit < spent.size(); ++visit)
        spent[visit] += spent[visit - 1];
    return spent;
}

} // namespace

Crowd::Crowd(const Plan& plan) : m_plan(plan), m_engine(19830659), m_people(people) {}

std::optional<double> Crowd::turnBound(int plan)
{
    return found(plan).bound;
}

const std::vector<double>& Crowd::turnSpent(int plan)
{
    return found(plan).spent;
}

const Crowd::Found& Crowd::found(int plan)
{
    while (m_found.size() <= size_t(plan))
        m_found.push_back(watchNextPlan());
    return m_found[size_t(plan)];
}

Crowd::Found Crowd::watchNextPlan()
{
    const int first = int(m_found.size()) * m_plan.visits;
    const std::vector<double> bounds = evenBounds(first, m_plan);
    std::vector<double> largest(people, 0.0);
    std::vector<bool> isFlagged(people, false);
    std::vector<Record> records;
    for (int visit = first; visit < first + m_plan.visits; ++visit) {
        for (size_t person = 0; person < people; ++person) {
            Person& watched = m_people[person];
            const double value = m_normal(m_engine);
            watched.slope.add(visit, value);
            watched.turn.add(value);
            if (std::abs(watched.slope.inErrors(1).value_or(0)) > bounds[size_t(visit - first)])
                isFlagged[person] = true;
            const auto turn = watched.turn.turn();
            if (turn && turn->size() > largest[person]) {
                largest[person] = turn->size();
                records.push_back({person, visit - first, largest[person]});
            }
        }
    }
    const double share = m_plan.level - trendSpent(first + m_plan.visits, m_plan);
    const auto bound = boundOf(largest, isFlagged, share);
    return {bound, bound ? spentBy(records, *bound, m_plan.visits)
                         : std::vector<double>(size_t(m_plan.visits), 0.0)};
}

} // namespace statistics
