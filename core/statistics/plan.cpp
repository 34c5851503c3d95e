#include "core/statistics/plan.h"

#include "core/statistics/crowd.h"
#include "core/statistics/distributions.h"
#include "core/statistics/scatter.h"
#include "core/statistics/sequential.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>

namespace statistics
{

namespace
{

bool isInRange(const Plan& plan)
{
    return plan.visits >= firstSlope && plan.level > 0 && plan.level < 1;
}

/// The plan a visit lies in, from 0, and its place there, from 1.
struct Place {
    int plan = 0;
    int visit = 0;
};

Place placeOf(int visit, const Plan& plan)
{
    return {(visit - 1) / plan.visits, (visit - 1) % plan.visits + 1};
}

/// Σ(t − mean)² of the first 1, 2, 3 … times.
std::vector<double> informationOf(std::span<const double> times)
{
    std::vector<double> information;
    double mean = 0;
    double squares = 0;
    for (const double time : times) {
        const double step = time - mean;
        mean += step / double(information.size() + 1);
        squares += step * (time - mean);
        information.push_back(squares);
    }
    return information;
}

/// The same at the same probability, where the error is known with so many degrees of freedom only.
std::optional<double> throughStudent(const std::optional<double>& bound, double degrees)
{
    return bound ? std::optional(-studentQuantile(normalShareBelow(-*bound), degrees)) : std::nullopt;
}

/// What is worked out once and asked for again at every judgement: bounds by the pattern of visits.
class Book
{
public:
    std::vector<VisitBounds> boundsAt(std::span<const double> times, const Plan& plan)
    {
        const std::scoped_lock lock(m_mutex);
        const auto key = std::pair(plan, std::vector(times.begin(), times.end()));
        const auto known = m_bounds.find(key);
        if (known != m_bounds.end())
            return known->second;
        constexpr size_t most = 2000;
        if (m_bounds.size() == most)
            m_bounds.clear();
        return m_bounds[key] = workedOut(times, plan);
    }

    double turnSpent(const Place& place, const Plan& plan)
    {
        const std::scoped_lock lock(m_mutex);
        return crowd(plan).turnSpent(place.plan)[size_t(place.visit) - 1];
    }

private:
    std::vector<VisitBounds> workedOut(std::span<const double> times, const Plan& plan)
    {
        std::vector<VisitBounds> bounds;
        for (const auto& trend : trendBounds(times, plan)) {
            const size_t visits = bounds.size() + 1;
            VisitBounds each{trend, std::nullopt};
            if (visits >= firstTurn)
                each.turn = crowd(plan).turnBound(placeOf(int(visits), plan).plan);
            if (visits >= size_t(fewestForScatter)) {
                const double degrees = publishedDegrees + degreesOfScatter(int(visits));
                each = {throughStudent(each.trend, degrees), throughStudent(each.turn, degrees)};
            }
            bounds.push_back(each);
        }
        return bounds;
    }

    Crowd& crowd(const Plan& plan) { return m_crowds.try_emplace(plan, plan).first->second; }

    std::mutex m_mutex;
    std::map<Plan, Crowd> m_crowds;
    std::map<std::pair<Plan, std::vector<double>>, std::vector<VisitBounds>> m_bounds;
};

Book& book()
{
    static Book only;
    return only;
}

} // namespace

double trendSpent(int visit, const Plan& plan)
{
    if (visit < firstSlope || !isInRange(plan))
        return 0;
    const Place place = placeOf(visit, plan);
    const double share = double(place.visit) / plan.visits;
    constexpr double first = 0.8;
    constexpr double later = 0.6;
    return place.plan == 0 ? first * plan.level * share * share * share : later * plan.level * share;
}

double sharedSpent(int visit, const Plan& plan)
{
    if (visit < firstSharing || !isInRange(plan))
        return 0;
    const Place place = placeOf(visit, plan);
    const double share = double(place.visit) / plan.visits;
    return plan.level * (place.plan == 0 ? share * share * share : share);
}

double sharedDue(int visit, const Plan& plan)
{
    if (visit < firstSharing || !isInRange(plan))
        return 0;
    const bool isFirst = placeOf(visit, plan).visit == 1;
    return sharedSpent(visit, plan) - (isFirst ? 0 : sharedSpent(visit - 1, plan));
}

double turnSpent(int visit, const Plan& plan)
{
    return visit < firstTurn || !isInRange(plan) ? 0 : book().turnSpent(placeOf(visit, plan), plan);
}

std::vector<std::optional<double>> trendBounds(std::span<const double> times, const Plan& plan)
{
    if (!isInRange(plan) || !std::ranges::is_sorted(times, std::less_equal<>()))
        return {};
    const std::vector<double> information = informationOf(times);
    std::vector<std::optional<double>> bounds(std::min(times.size(), size_t(firstSlope) - 1));
    std::vector<Stage> stages;
    for (size_t visit = firstSlope; visit <= times.size(); ++visit) {
        stages.push_back({information[visit - 1], trendSpent(int(visit), plan)});
        const bool endsPlan = visit % size_t(plan.visits) == 0 || visit == times.size();
        if (!endsPlan)
            continue;
        std::ranges::copy(sequentialBounds(stages), std::back_inserter(bounds));
        stages.clear();
    }
    return bounds;
}

std::vector<VisitBounds> boundsAt(std::span<const double> times, const Plan& plan)
{
    if (!isInRange(plan) || !std::ranges::is_sorted(times, std::less_equal<>()))
        return {};
    return book().boundsAt(times, plan);
}

} // namespace statistics
