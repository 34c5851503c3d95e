// How often each rule flags people who are truly stable, and how soon it finds a true decline. Every visit
// errs by one standard error of measurement (SEM), one visit per unit of time, judged at 95 %.
//   rule_rates           markdown tables
//   rule_rates --rows    the rows of core/statistics/flag_rates.cpp

#include "core/statistics/distributions.h"
#include "core/statistics/sequential.h"
#include "core/statistics/trend.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <random>
#include <string_view>
#include <thread>
#include <vector>

namespace
{

constexpr int mostVisits = 20;
constexpr int plannedVisits = 8;
constexpr int people = 1'000'000;
constexpr int perBlock = 10'000;
constexpr std::uint32_t seed = 19830659;

constexpr size_t ruleCount = 6;
constexpr size_t publishedRules = 5; ///< the rows of flag_rates; "first or previous" is shown beside them
constexpr std::array<const char*, ruleCount> ruleNames = {
    "against the first visit",
    "against the previous visit",
    "worse than the best visit",
    "against the first, confirmed at the next visit",
    "**slope against its sequential bound**",
    "against the first or the previous",
};

/// The visit of the first flag by each rule, in the order of the names; 0 for none.
using FirstFlags = std::array<int, ruleCount>;

enum class Counted { EitherWay, Declines };

const double beyondError = statistics::normalValueAt(0.975) * std::sqrt(2.0);

std::array<double, mostVisits + 1> sequentialBounds()
{
    std::array<double, mostVisits + 1> bounds{};
    for (int visit = statistics::firstLook; visit <= mostVisits; ++visit)
        bounds[size_t(visit)] = *statistics::sequentialBound(visit, plannedVisits);
    return bounds;
}

const std::array<double, mostVisits + 1> bounds = sequentialBounds();

/// −1 beyond error downwards, 1 upwards, 0 within.
int direction(double difference)
{
    return int(difference > beyondError) - int(difference < -beyondError);
}

/// The visits of one person as they come, one per unit of time. Less is worse.
class Watch
{
public:
    explicit Watch(Counted counted) : m_counted(counted) {}

    void see(double value)
    {
        ++m_visit;
        m_sum += value;
        m_weighted += m_visit * value;
        if (m_visit == 1) {
            m_first = m_previous = m_best = value;
            return;
        }
        const int fromFirst = direction(value - m_first);
        const int fromPrevious = direction(value - m_previous);
        note(0, fromFirst);
        note(1, fromPrevious);
        note(2, std::min(direction(value - m_best), 0));
        note(3, fromFirst == m_fromFirst ? fromFirst : 0);
        if (m_visit >= statistics::firstLook) {
            const double z = slopeOverError();
            const double bound = bounds[size_t(m_visit)];
            note(4, int(z > bound) - int(z < -bound));
        }
        note(5, fromFirst);
        note(5, fromPrevious);
        m_previous = value;
        m_best = std::max(m_best, value);
        m_fromFirst = fromFirst;
    }

    /// The least squares slope over its standard error, for values that err by 1 at times 1, 2, 3 …
    double slopeOverError() const
    {
        const double n = m_visit;
        const double squares = n * (n * n - 1) / 12;
        return (m_weighted - (n + 1) / 2 * m_sum) / std::sqrt(squares);
    }

    const FirstFlags& firstFlags() const { return m_flags; }

private:
    void note(size_t rule, int way)
    {
        if (m_flags[rule] == 0 && (m_counted == Counted::Declines ? way < 0 : way != 0))
            m_flags[rule] = m_visit;
    }

    Counted m_counted;
    int m_visit = 0;
    double m_first = 0;
    double m_previous = 0;
    double m_best = 0;
    double m_sum = 0;
    double m_weighted = 0;
    int m_fromFirst = 0;
    FirstFlags m_flags{};
};

/// How many people each rule flagged first at each visit.
using Tally = std::array<std::array<std::int64_t, mostVisits + 1>, ruleCount>;

struct Scenario {
    double declinePerVisit = 0;
    int visits = mostVisits;
    Counted counted = Counted::EitherWay;
};

void runBlock(const Scenario& scenario, std::uint32_t number, std::uint32_t block, Tally& tally)
{
    std::seed_seq seeds{seed, number, block};
    std::mt19937_64 engine(seeds);
    std::normal_distribution<double> error;
    for (int person = 0; person < perBlock; ++person) {
        Watch watch(scenario.counted);
        for (int visit = 0; visit < scenario.visits; ++visit)
            watch.see(error(engine) - scenario.declinePerVisit * visit);
        for (size_t rule = 0; rule < ruleCount; ++rule)
            ++tally[rule][size_t(watch.firstFlags()[rule])];
    }
}

/// Each block has its own seed, so the number of threads changes nothing.
Tally run(const Scenario& scenario, std::uint32_t number)
{
    std::atomic<std::uint32_t> next = 0;
    std::vector<Tally> tallies(std::max(1U, std::thread::hardware_concurrency()));
    std::vector<std::thread> threads;
    threads.reserve(tallies.size());
    for (Tally& tally : tallies) {
        threads.emplace_back([&scenario, &next, &tally, number] {
            for (std::uint32_t block = next++; block < people / perBlock; block = next++)
                runBlock(scenario, number, block, tally);
        });
    }
    for (std::thread& thread : threads)
        thread.join();
    Tally sum{};
    for (const Tally& tally : tallies) {
        for (size_t rule = 0; rule < ruleCount; ++rule) {
            for (size_t visit = 0; visit < sum[rule].size(); ++visit)
                sum[rule][visit] += tally[rule][visit];
        }
    }
    return sum;
}

double flaggedWithin(const Tally& tally, size_t rule, int visits)
{
    std::int64_t flagged = 0;
    for (int visit = 1; visit <= visits; ++visit)
        flagged += tally[rule][size_t(visit)];
    return double(flagged) / people;
}

double meanVisit(const Tally& tally, size_t rule)
{
    std::int64_t flagged = 0;
    std::int64_t visits = 0;
    for (size_t visit = 1; visit < tally[rule].size(); ++visit) {
        flagged += tally[rule][visit];
        visits += tally[rule][visit] * std::int64_t(visit);
    }
    return double(visits) / double(flagged);
}

/// Whether the slope worked out as the visits come is the one of core/statistics.
bool runningSlopeIsRight()
{
    std::mt19937_64 engine(seed);
    std::normal_distribution<double> error;
    for (int round = 0; round < 1000; ++round) {
        Watch watch(Counted::EitherWay);
        std::vector<double> times;
        std::vector<double> values;
        while (int(times.size()) < mostVisits) {
            times.push_back(double(times.size() + 1));
            values.push_back(error(engine));
            watch.see(values.back());
            const auto slope = statistics::leastSquares(times, values, 1);
            if (!slope)
                continue;
            const double z = slope->value * statistics::normalValueAt(0.975) / (slope->high - slope->value);
            if (std::abs(z - watch.slopeOverError()) > 1e-9)
                return false;
        }
    }
    return true;
}

void printRows(const Tally& stable)
{
    for (size_t rule = 0; rule < publishedRules; ++rule) {
        std::printf("    {");
        for (int visit = 2; visit <= mostVisits; ++visit)
            std::printf("%s%.4f", visit > 2 ? ", " : "", flaggedWithin(stable, rule, visit));
        std::printf("},\n");
    }
}

void printSummary(const Tally& stable, const std::vector<Tally>& declines)
{
    std::printf(
        "| rule | stable people flagged within 2 visits | 4 visits | 8 visits | decline of 0.25 SEM "
        "per visit found by the eighth (mean visit) | 0.5 SEM | 1 SEM |\n|---|---|---|---|---|---|---|\n");
    for (size_t rule = 0; rule < ruleCount; ++rule) {
        std::printf("| %s", ruleNames[rule]);
        for (const int visits : {2, 4, 8})
            std::printf(" | %.1f %%", 100 * flaggedWithin(stable, rule, visits));
        for (const Tally& decline : declines)
            std::printf(" | %.0f %% (%.1f)", 100 * flaggedWithin(decline, rule, plannedVisits),
                        meanVisit(decline, rule));
        std::printf(" |\n");
    }
}

void printVisits(const Tally& stable)
{
    std::printf("\nStable people flagged at least once, per number of visits, in %%:\n\n| rule |");
    for (int visit = 2; visit <= mostVisits; ++visit)
        std::printf(" %d |", visit);
    std::printf("\n|---|");
    for (int visit = 2; visit <= mostVisits; ++visit)
        std::printf("---|");
    for (size_t rule = 0; rule < ruleCount; ++rule) {
        std::printf("\n| %s |", ruleNames[rule]);
        for (int visit = 2; visit <= mostVisits; ++visit)
            std::printf(" %.2f |", 100 * flaggedWithin(stable, rule, visit));
    }
    std::printf("\n");
}

} // namespace

int main(int count, char** words)
{
    const bool wantsRows = count == 2 && std::string_view(words[1]) == "--rows";
    if (count > 1 && !wantsRows) {
        std::fprintf(stderr,
                     "Use rule_rates for the tables, or rule_rates --rows for the rows of flag_rates.\n");
        return 2;
    }
    const auto started = std::chrono::steady_clock::now();
    if (!runningSlopeIsRight()) {
        std::fprintf(stderr, "The running slope differs from the one of core/statistics.\n");
        return 1;
    }
    const Tally stable = run({}, 0);
    const std::chrono::duration<double> stableTime = std::chrono::steady_clock::now() - started;
    if (wantsRows) {
        printRows(stable);
        return 0;
    }
    std::vector<Tally> declines;
    for (const double step : {0.25, 0.5, 1.0})
        declines.push_back(run({step, plannedVisits, Counted::Declines}, std::uint32_t(declines.size() + 1)));
    printSummary(stable, declines);
    printVisits(stable);
    std::printf("\n%d stable people with %d visits each in %.1f s on %u threads.\n", people, mostVisits,
                stableTime.count(), std::max(1U, std::thread::hardware_concurrency()));
}
