#include "core/statistics/flag_rates.h"

#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <mutex>
#include <numbers>
#include <tuple>

namespace statistics
{

namespace
{

constexpr int fewestVisits = 2;
constexpr int stepsToLimit = 120;
constexpr double farthest = 8; ///< standard errors; beyond them lies nobody

/// The 95 % limit of a difference of two values that err by 1.
double limit()
{
    return normalValueAt(upperTail) * std::numbers::sqrt2;
}

/// One value of a person, in steps of which a whole number makes the limit.
struct Grid {
    double step = limit() / stepsToLimit;
    int half = int(farthest / step);

    size_t size() const { return 2 * size_t(half) + 1; }
    double at(size_t place) const { return (double(place) - half) * step; }
    /// The share of people each place stands for.
    double share(size_t place) const
    {
        return step * std::exp(-at(place) * at(place) / 2) / std::sqrt(2 * std::numbers::pi);
    }
};

/// The mean over the first visit's error of what is left unflagged, given the chances of one visit to lie
/// beyond error above and below it.
template <typename Left>
double leftFromFirst(Left left)
{
    const Grid grid;
    double sum = 0;
    for (size_t i = 0; i < grid.size(); ++i)
        sum += grid.share(i) *
               left(normalShareBelow(-grid.at(i) - limit()), normalShareBelow(grid.at(i) - limit()));
    return sum;
}

/// No two neighbouring later visits beyond error the same way.
double leftUnconfirmed(double above, double below, int visits)
{
    double within = 1;
    double up = 0;
    double down = 0;
    for (int visit = fewestVisits; visit <= visits; ++visit) {
        const double all = within + up + down;
        up = above * (all - up);
        down = below * (all - down);
        within = (1 - above - below) * all;
    }
    return within + up + down;
}

std::vector<double> everybody(const Grid& grid)
{
    std::vector<double> left(grid.size());
    for (size_t i = 0; i < left.size(); ++i)
        left[i] = grid.share(i);
    return left;
}

double sumOf(const std::vector<double>& left)
{
    double sum = 0;
    for (const double share : left)
        sum += share;
    return sum;
}

/// Carried by the value of the last visit: the next one lies within the limit of it.
double leftFromPrevious(int visits)
{
    const Grid grid;
    std::vector<double> left = everybody(grid);
    for (int visit = fewestVisits; visit <= visits; ++visit) {
        std::vector<double> below(left.size() + 1, 0.0);
        for (size_t i = 0; i < left.size(); ++i)
            below[i + 1] = below[i] + left[i];
        std::vector<double> next(left.size());
        for (size_t i = 0; i < left.size(); ++i) {
            const size_t from = i < stepsToLimit ? 0 : i - stepsToLimit;
            const size_t to = std::min(i + stepsToLimit, left.size() - 1);
            const double ends = (i < stepsToLimit ? 0 : left[from] / 2) +
                                (i + stepsToLimit >= left.size() ? 0 : left[to] / 2);
            next[i] = grid.share(i) * (below[to + 1] - below[from] - ends);
        }
        left = std::move(next);
    }
    return sumOf(left);
}

/// Carried by the best value: the next one lies at most the limit below it, and may be the new best.
double leftFromBest(int visits)
{
    const Grid grid;
    std::vector<double> left = everybody(grid);
    for (int visit = fewestVisits; visit <= visits; ++visit) {
        double worse = 0;
        for (size_t i = 0; i < left.size(); ++i) {
            const double stays = normalShareBelow(grid.at(i)) - normalShareBelow(grid.at(i) - limit());
            const double was = left[i];
            left[i] = was * stays + grid.share(i) * (worse + was / 2);
            worse += was;
        }
    }
    return sumOf(left);
}

double workedOut(FlagRule rule, int visits, const Plan& plan)
{
    switch (rule) {
    case FlagRule::FirstVisit:
        return 1 - leftFromFirst([visits](double above, double below) {
                   return std::pow(1 - above - below, visits - 1);
               });
    case FlagRule::PreviousVisit:
        return 1 - leftFromPrevious(visits);
    case FlagRule::BestVisit:
        return 1 - leftFromBest(visits);
    case FlagRule::Confirmed:
        return 1 - leftFromFirst([visits](double above, double below) {
                   return leftUnconfirmed(above, below, visits);
               });
    case FlagRule::Trend:
        return trendSpent(visits, plan);
    case FlagRule::Turn:
        return turnSpent(visits, plan);
    case FlagRule::Order:
    case FlagRule::OwnScatter:
        break;
    }
    return sharedSpent(visits, plan);
}

/// What was worked out once.
class Rates
{
public:
    double at(FlagRule rule, int visits, const Plan& plan)
    {
        const std::scoped_lock lock(m_mutex);
        const auto [known, isNew] = m_rates.try_emplace(std::tuple(rule, visits, plan), 0);
        if (isNew)
            known->second = workedOut(rule, visits, plan);
        return known->second;
    }

private:
    std::mutex m_mutex;
    std::map<std::tuple<FlagRule, int, Plan>, double> m_rates;
};

} // namespace

std::optional<double> falseFlagRate(FlagRule rule, int visits, const Plan& plan)
{
    if (visits < fewestVisits || plan.visits < firstSlope || !(plan.level > 0 && plan.level < 1))
        return std::nullopt;
    static Rates rates;
    return rates.at(rule, visits, plan);
}

} // namespace statistics
