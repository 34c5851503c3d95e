// How often each rule flags people who are truly stable, and how often it finds people who truly change.
// Every visit errs by one standard error of measurement (SEM), one visit per unit of time, judged at 95 %.

#include "core/statistics/crowd.h"
#include "core/statistics/distributions.h"
#include "core/statistics/flag_rates.h"
#include "core/statistics/trend.h"
#include "core/statistics/watch.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <functional>
#include <random>
#include <string>
#include <thread>
#include <vector>

namespace
{

using statistics::Plan;

constexpr int planned = 8;
constexpr int million = 1'000'000;
constexpr int fewer = 100'000;
constexpr std::uint32_t seed = 19830659;
constexpr std::array<Plan, 3> plans = {{{planned, 0.02}, {planned, 0.05}, {planned, 0.10}}};

/// People of one kind, as truth and error make them.
struct Scenario {
    std::string name;
    std::vector<double> truth; ///< in published SEM, a visit each
    double error = 1;          ///< of the published SEM
    double correlation = 0;    ///< of neighbouring visits' errors
    int tails = 0;             ///< degrees of freedom of a t distribution of the same variance; 0: normal
    int peopleOfStudy = 0; ///< the published SEM comes from so many people, two visits each; 0: it is right
    bool isUneven = false; ///< visits 0.6, 1.4, 1 apart
    int countedFrom = 1;   ///< flags of earlier visits are not counted
};

std::vector<double> timesOf(const Scenario& scenario)
{
    constexpr std::array steps = {0.6, 1.4, 1.0};
    std::vector<double> times;
    double time = 0;
    for (size_t visit = 0; visit < scenario.truth.size(); ++visit) {
        times.push_back(time);
        time += scenario.isUneven ? steps[visit % steps.size()] : 1;
    }
    return times;
}

/// One person's values, in units of the SEM as published.
class Person
{
public:
    Person(const Scenario& scenario, std::uint32_t number, std::uint32_t block)
        : m_scenario(scenario), m_values(scenario.truth.size())
    {
        std::seed_seq seeds{seed, number, block};
        m_engine.seed(seeds);
    }

    const std::vector<double>& next()
    {
        double published = 1;
        if (m_scenario.peopleOfStudy > 0)
            published = std::sqrt(chiSquare(m_scenario.peopleOfStudy - 1) / (m_scenario.peopleOfStudy - 1));
        double before = 0;
        for (size_t visit = 0; visit < m_values.size(); ++visit) {
            const double own = std::sqrt(1 - m_scenario.correlation * m_scenario.correlation);
            const double error = visit == 0 ? step() : m_scenario.correlation * before + own * step();
            before = error;
            m_values[visit] = (m_scenario.truth[visit] + m_scenario.error * error) / published;
        }
        return m_values;
    }

private:
    double chiSquare(int degrees) { return std::chi_squared_distribution<double>(degrees)(m_engine); }

    double step()
    {
        const double normal = m_normal(m_engine);
        if (m_scenario.tails == 0)
            return normal;
        const double degrees = m_scenario.tails;
        return normal / std::sqrt(chiSquare(m_scenario.tails) / degrees) * std::sqrt((degrees - 2) / degrees);
    }

    const Scenario& m_scenario;
    std::vector<double> m_values;
    std::mt19937_64 m_engine;
    std::normal_distribution<double> m_normal;
};

/// What was said of one person: bits.
enum Said : unsigned { Worse = 1, Better = 2, SustainedWorse = 4, SustainedBetter = 8 };

using Judge = std::function<unsigned(const std::vector<double>& times, const std::vector<double>& values)>;

unsigned saidBy(const std::vector<statistics::Look>& looks, int from)
{
    unsigned said = 0;
    for (const statistics::Look& look : looks) {
        if (look.visit >= from)
            said |= look.way() < 0 ? Worse : look.way() > 0 ? Better : 0U;
    }
    return said;
}

bool agreesWithTheLookBefore(const std::vector<statistics::Look>& looks)
{
    return looks.size() > 1 && looks.back().way() != 0 && looks[looks.size() - 2].way() == looks.back().way();
}

/// Which ways became sustained: asked of every visit at which two looks agree.
unsigned sustained(const statistics::Watched& all, const std::vector<double>& times,
                   const std::vector<double>& values, const Plan& plan, int from)
{
    unsigned said = 0;
    for (const auto* looks : {&all.trend, &all.turn}) {
        for (size_t look = 1; look < looks->size(); ++look) {
            const int way = (*looks)[look].way();
            const auto visits = size_t((*looks)[look].visit);
            if (way == 0 || (*looks)[look - 1].way() != way || int(visits) < from)
                continue;
            const auto then = std::span(values).first(visits);
            const auto days = std::span(times).first(visits);
            const auto watched = statistics::watched(days, then, 1, plan);
            const bool stands = looks == &all.trend
                                    ? trendStands(watched, days, then)
                                    : agreesWithTheLookBefore(watched.turn) && turnStands(watched, then);
            if (stands)
                said |= way < 0 ? SustainedWorse : SustainedBetter;
        }
    }
    return said;
}

/// The rule of the program.
Judge rule(const Plan& plan, int from)
{
    return [plan, from](const std::vector<double>& times, const std::vector<double>& values) {
        const auto all = statistics::watched(times, values, 1, plan);
        const unsigned said = saidBy(all.trend, from) | saidBy(all.turn, from);
        return said == 0 ? 0U : said | sustained(all, times, values, plan, from);
    };
}

/// The same bounds for an error that is known: nothing is drawn toward the person's own scatter.
Judge ruleOfKnownError(const Plan& plan, int from, const std::vector<double>& times)
{
    statistics::Crowd crowd(plan);
    std::vector<double> turns;
    for (size_t visit = 0; visit < times.size(); ++visit)
        turns.push_back(crowd.turnBound(int(visit) / plan.visits).value_or(HUGE_VAL));
    return [bounds = statistics::trendBounds(times, plan), turns, from](const std::vector<double>& days,
                                                                        const std::vector<double>& values) {
        statistics::GrowingSlope slope;
        statistics::GrowingTurn growing;
        unsigned said = 0;
        for (size_t visit = 0; visit < values.size(); ++visit) {
            slope.add(days[visit], values[visit]);
            growing.add(values[visit]);
            if (int(visit) + 1 < from || !bounds[visit])
                continue;
            const double z = *slope.inErrors(1);
            said |= z < -*bounds[visit] ? Worse : z > *bounds[visit] ? Better : 0U;
            if (const auto turn = growing.turn()) {
                said |= turn->highest.mean - turn->now > turns[visit] ? Worse : 0U;
                said |= turn->now - turn->lowest.mean > turns[visit] ? Better : 0U;
            }
        }
        return said;
    };
}

/// The share of people of each kind of saying, by its bits.
using Shares = std::array<double, 16>;

double having(const Shares& shares, unsigned anyOf)
{
    double sum = 0;
    for (unsigned said = 0; said < shares.size(); ++said)
        sum += (said & anyOf) != 0 ? shares[said] : 0;
    return sum;
}

/// Each block has its own seed, so the number of threads changes nothing.
Shares sharesOf(const Scenario& scenario, const Judge& judge, int people, std::uint32_t number)
{
    constexpr int perBlock = 10'000;
    const std::vector<double> times = timesOf(scenario);
    std::atomic<std::uint32_t> next = 0;
    std::vector<std::array<std::int64_t, 16>> tallies(std::max(1U, std::thread::hardware_concurrency()));
    std::vector<std::thread> threads;
    for (auto& tally : tallies) {
        tally.fill(0);
        threads.emplace_back([&] {
            for (std::uint32_t block = next++; block < std::uint32_t(people / perBlock); block = next++) {
                Person person(scenario, number, block);
                for (int one = 0; one < perBlock; ++one)
                    ++tally[judge(times, person.next())];
            }
        });
    }
    for (std::thread& thread : threads)
        thread.join();
    Shares shares{};
    for (const auto& tally : tallies) {
        for (size_t said = 0; said < shares.size(); ++said)
            shares[said] += double(tally[said]) / people;
    }
    return shares;
}

std::vector<double> drift(double step, int visits = planned, int stable = 0)
{
    std::vector<double> truth;
    for (int visit = 0; visit < visits; ++visit)
        truth.push_back(visit < stable ? 0 : step * (visit - std::max(stable - 1, 0)));
    return truth;
}

std::vector<double> practice(double gain)
{
    std::vector<double> truth(planned, gain);
    truth.front() = 0;
    return truth;
}

std::vector<double> stepAt(int visit, double size)
{
    std::vector<double> truth(planned, 0.0);
    std::fill(truth.begin() + visit - 1, truth.end(), size);
    return truth;
}

std::vector<Scenario> stablePeople()
{
    const std::vector<double> flat(planned, 0.0);
    std::vector<Scenario> all = {{"the SEM as published", flat},
                                 {"visits unevenly spaced", flat},
                                 {"second plan of eight visits", std::vector<double>(16, 0.0)},
                                 {"third plan", std::vector<double>(24, 0.0)},
                                 {"error 1.3 × SEM", flat, 1.3},
                                 {"errors of neighbours correlated 0.3", flat, 1, 0.3},
                                 {"errors t with 4 degrees of freedom", flat, 1, 0, 4},
                                 {"SEM from 20 people", flat, 1, 0, 0, 20},
                                 {"practice of 0.5 SEM after the first visit", practice(0.5)},
                                 {"practice of 1 SEM", practice(1)},
                                 {"1.3 × SEM, correlated 0.3, practice of 0.5", practice(0.5), 1.3, 0.3}};
    all[1].isUneven = true;
    all[2].countedFrom = 9;
    all[3].countedFrom = 17;
    return all;
}

std::vector<Scenario> changingPeople()
{
    std::vector<Scenario> all = {
        {"decline of 0.25 SEM a visit", drift(-0.25)},
        {"decline of 0.5 SEM a visit", drift(-0.5)},
        {"decline of 1 SEM a visit", drift(-1)},
        {"one step of −2 SEM at the fifth visit", stepAt(5, -2)},
        {"one step of −3 SEM at the fifth visit", stepAt(5, -3)},
        {"recovery, then relapse (0 1 2 3 2 1 0 −1)", {0, 1, 2, 3, 2, 1, 0, -1}},
        {"slip back (0 1.5 3 3 3 3 0.5 0.5)", {0, 1.5, 3, 3, 3, 3, 0.5, 0.5}},
        {"late onset: −0.5 a visit after 16 stable ones, within four visits", drift(-0.5, 20, 16)},
        {"the same, within eight", drift(-0.5, 24, 16)},
        {"improvement of 0.5 SEM a visit (worse would be false)", drift(0.5)}};
    all[7].countedFrom = all[8].countedFrom = 17;
    return all;
}

struct Answers {
    std::array<Shares, plans.size()> byPlan;
    Shares known; ///< balanced, as if the published error were right
};

Answers answersOf(const Scenario& scenario, std::uint32_t number)
{
    Answers answers;
    for (size_t each = 0; each < plans.size(); ++each) {
        const bool isDefault = plans[each] == Plan{};
        answers.byPlan[each] =
            sharesOf(scenario, rule(plans[each], scenario.countedFrom), isDefault ? million : fewer, number);
    }
    answers.known =
        sharesOf(scenario, ruleOfKnownError({}, scenario.countedFrom, timesOf(scenario)), fewer, number);
    return answers;
}

void printStable(std::uint32_t& number)
{
    std::printf("\nStable people flagged within one plan of eight visits, any way (sustained), in %%:\n\n"
                "| stable people | strict | balanced | sensitive | balanced without own scatter |\n"
                "|---|---|---|---|---|\n");
    for (const Scenario& scenario : stablePeople()) {
        const Answers answers = answersOf(scenario, ++number);
        std::printf("| %s", scenario.name.c_str());
        for (const Shares& shares : answers.byPlan)
            std::printf(" | %.1f (%.1f)", 100 * having(shares, Worse | Better),
                        100 * having(shares, SustainedWorse | SustainedBetter));
        std::printf(" | %.1f |\n", 100 * having(answers.known, Worse | Better));
    }
}

void printChanging(std::uint32_t& number)
{
    std::printf("\nPeople who change: worse was said (sustained); any was said, in %%:\n\n"
                "| people | strict | balanced | sensitive | balanced without own scatter |\n"
                "|---|---|---|---|---|\n");
    for (const Scenario& scenario : changingPeople()) {
        const Answers answers = answersOf(scenario, ++number);
        std::printf("| %s", scenario.name.c_str());
        for (const Shares& shares : answers.byPlan)
            std::printf(" | %.2f (%.2f); %.1f", 100 * having(shares, Worse),
                        100 * having(shares, SustainedWorse), 100 * having(shares, Worse | Better));
        std::printf(" | %.1f; %.1f |\n", 100 * having(answers.known, Worse),
                    100 * having(answers.known, Worse | Better));
    }
}

/// Ten measures of one person whose errors are correlated at each visit.
void printManyMeasures(std::uint32_t number)
{
    constexpr size_t measures = 10;
    constexpr double correlation = 0.3;
    std::seed_seq seeds{seed, number};
    std::mt19937_64 engine(seeds);
    std::normal_distribution<double> normal;
    const Scenario scenario{"", std::vector<double>(planned, 0.0)};
    const std::vector<double> times = timesOf(scenario);
    const Judge judge = rule({}, 1);
    int flagged = 0;
    int stood = 0;
    for (int person = 0; person < fewer; ++person) {
        std::array<std::vector<double>, measures> values;
        for (int visit = 0; visit < planned; ++visit) {
            const double together = std::sqrt(correlation) * normal(engine);
            for (auto& each : values)
                each.push_back(together + std::sqrt(1 - correlation) * normal(engine));
        }
        unsigned said = 0;
        for (const auto& each : values)
            said |= judge(times, each);
        flagged += int(said != 0);
        stood += int((said & (SustainedWorse | SustainedBetter)) != 0);
    }
    std::printf(
        "\nOf stable people with ten measures, correlated 0.3, %.1f %% have at least one flag and %.1f %% "
        "one sustained (balanced, eight visits).\n",
        100.0 * flagged / fewer, 100.0 * stood / fewer);
}

/// Pairs of visits: exact, core/statistics/flag_rates.
void printPairs()
{
    using statistics::FlagRule;
    const std::array<std::pair<FlagRule, const char*>, 4> rules = {
        {{FlagRule::FirstVisit, "against the first visit"},
         {FlagRule::PreviousVisit, "against the previous visit"},
         {FlagRule::BestVisit, "worse than the best visit"},
         {FlagRule::Confirmed, "against the first, confirmed at the next visit"}}};
    std::printf("Stable people flagged at least once, in %%:\n\n| rule |");
    constexpr std::array numbers = {2, 4, 8, 20, 50, 200};
    for (const int visits : numbers)
        std::printf(" %d visits |", visits);
    std::printf("\n|---|---|---|---|---|---|---|\n");
    for (const auto& [rule, name] : rules) {
        std::printf("| %s", name);
        for (const int visits : numbers)
            std::printf(" | %.1f", 100 * *statistics::falseFlagRate(rule, visits));
        std::printf(" |\n");
    }
    std::printf("| trend, within its plan of eight | 0.0 | %.1f | %.1f | | | |\n| reversal, within its plan "
                "(alone) | 0.0 | %.1f | %.1f | | | |\n",
                100 * *statistics::falseFlagRate(FlagRule::Trend, 4),
                100 * *statistics::falseFlagRate(FlagRule::Trend, 8),
                100 * *statistics::falseFlagRate(FlagRule::Turn, 4),
                100 * *statistics::falseFlagRate(FlagRule::Turn, 8));
}

} // namespace

int main()
{
    const auto started = std::chrono::steady_clock::now();
    std::uint32_t number = 0;
    printPairs();
    printStable(number);
    printChanging(number);
    printManyMeasures(++number);
    const std::chrono::duration<double> time = std::chrono::steady_clock::now() - started;
    std::printf(
        "\nA million people a row (balanced; the others a hundred thousand) in %.0f s on %u threads.\n",
        time.count(), std::max(1U, std::thread::hardware_concurrency()));
}
