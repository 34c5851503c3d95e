#include "core/statistics/flag_rates.h"

#include "core/statistics/distributions.h"
#include "core/statistics/watch.h"
#include "tests/support/test_support.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <random>

namespace test_flag_rates
{

using namespace statistics;

constexpr int people = 20'000;
constexpr int mostVisits = 20;
constexpr int planned = 8;
constexpr std::array allRules = {FlagRule::FirstVisit, FlagRule::PreviousVisit, FlagRule::BestVisit,
                                 FlagRule::Confirmed};
const double beyond = 1.959964 * std::sqrt(2.0);

/// The engine's numbers are laid down by the standard, the distributions of <random> are not.
class Dice
{
public:
    double normal() { return normalValueAt((double(m_engine()) + 0.5) / 4294967296.0); }

private:
    std::mt19937 m_engine{20260311};
};

/// Whether the last of these visits raises a flag, and which way: −1, 0 or 1. More is better.
int flagAtLast(FlagRule rule, std::span<const double> values)
{
    const auto way = [values](size_t visit, double reference) {
        return std::abs(values[visit] - reference) > beyond ? (values[visit] > reference ? 1 : -1) : 0;
    };
    const size_t last = values.size() - 1;
    if (last == 0)
        return 0;
    switch (rule) {
    case FlagRule::FirstVisit:
        return way(last, values[0]);
    case FlagRule::PreviousVisit:
        return way(last, values[last - 1]);
    case FlagRule::BestVisit:
        return std::min(0, way(last, std::ranges::max(values.first(last))));
    case FlagRule::Confirmed:
        return way(last, values[0]) == way(last - 1, values[0]) ? way(last, values[0]) : 0;
    case FlagRule::Trend:
    case FlagRule::Turn:
    case FlagRule::Order:
    case FlagRule::OwnScatter:
        break;
    }
    return 0;
}

/// The first visit, from 1, that raises a flag; 0 for none.
int firstFlag(FlagRule rule, std::span<const double> values)
{
    for (size_t visits = 2; visits <= values.size(); ++visits) {
        if (flagAtLast(rule, values.first(visits)) != 0)
            return int(visits);
    }
    return 0;
}

/// Whether trend or turn said anything within the first plan, worse within it.
struct Said {
    bool anything = false;
    bool worse = false;
};

Said said(std::span<const double> values)
{
    std::vector<double> times(values.size());
    std::iota(times.begin(), times.end(), 0.0);
    const Watched found = watched(times, values, 1, {});
    Said answer;
    for (const auto* looks : {&found.trend, &found.turn}) {
        for (const Look& look : *looks) {
            answer.anything = answer.anything || look.way() != 0;
            answer.worse = answer.worse || look.way() < 0;
        }
    }
    return answer;
}

double standardErrorOf(double rate, int simulated)
{
    return std::sqrt(rate * (1 - rate) / simulated);
}

class TestFlagRates : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theRatesLieWithinAFreshSimulation();
    void trendAndTurnKeepTheirLevelAndFindChange();
    void twoVisitsAreOneTest();
    void ratesGrowWithTheVisitsToAll();
    void trendAndTurnHaveThatOfTheirPlan();
};

void TestFlagRates::theRatesLieWithinAFreshSimulation()
{
    Dice dice;
    std::array<std::array<int, mostVisits + 1>, allRules.size()> flaggedBy{};
    std::array<double, mostVisits> values{};
    for (int person = 0; person < people; ++person) {
        std::ranges::generate(values, [&dice] { return dice.normal(); });
        for (size_t rule = 0; rule < allRules.size(); ++rule) {
            if (const int visit = firstFlag(allRules[rule], values))
                ++flaggedBy[rule][size_t(visit)];
        }
    }
    for (size_t rule = 0; rule < allRules.size(); ++rule) {
        int flagged = 0;
        for (int visits = 2; visits <= mostVisits; ++visits) {
            flagged += flaggedBy[rule][size_t(visits)];
            const double rate = *falseFlagRate(allRules[rule], visits);
            const double fresh = double(flagged) / people;
            QVERIFY2(std::abs(fresh - rate) <= 4 * standardErrorOf(rate, people),
                     qPrintable(QStringLiteral("rule %1, %2 visits: %3 worked out, %4 simulated")
                                    .arg(rule)
                                    .arg(visits)
                                    .arg(rate)
                                    .arg(fresh)));
        }
    }
}

/// The goals of the rule (DEVELOPERS.md holds the table): less than 5 % of stable people, and of those whose
/// error is a third larger than published at most 13 %; −0.5 SEM a visit in 79 %, recovery and relapse in 50
/// %.
void TestFlagRates::trendAndTurnKeepTheirLevelAndFindChange()
{
    Dice dice;
    const auto shareOf = [&dice](std::array<double, planned> truth, double error, bool ofWorse) {
        int found = 0;
        for (int person = 0; person < people; ++person) {
            std::array<double, planned> values = truth;
            for (double& value : values)
                value += error * dice.normal();
            const Said answer = said(values);
            found += int(ofWorse ? answer.worse : answer.anything);
        }
        return double(found) / people;
    };
    QVERIFY(shareOf({}, 1, false) < 0.05);
    QVERIFY(shareOf({}, 1.3, false) < 0.13 + 2 * standardErrorOf(0.13, people));
    QVERIFY(shareOf({0, -0.5, -1, -1.5, -2, -2.5, -3, -3.5}, 1, true) >
            0.79 - 2 * standardErrorOf(0.79, people));
    QVERIFY(shareOf({0, 1, 2, 3, 2, 1, 0, -1}, 1, false) > 0.5);
    QVERIFY(shareOf({0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5}, 1, true) <= 0.001);
}

void TestFlagRates::twoVisitsAreOneTest()
{
    QVERIFY(std::abs(*falseFlagRate(FlagRule::FirstVisit, 2) - 0.05) < 1e-5);
    QVERIFY(std::abs(*falseFlagRate(FlagRule::PreviousVisit, 2) - 0.05) < 1e-4);
    QVERIFY(std::abs(*falseFlagRate(FlagRule::BestVisit, 2) - 0.025) < 1e-4);
    QVERIFY(std::abs(*falseFlagRate(FlagRule::Confirmed, 2)) < 1e-9);
}

void TestFlagRates::ratesGrowWithTheVisitsToAll()
{
    for (const FlagRule rule : allRules) {
        QVERIFY(!falseFlagRate(rule, 1));
        QVERIFY(!falseFlagRate(rule, -3));
        for (int visits = 3; visits <= mostVisits; ++visits)
            QVERIFY(*falseFlagRate(rule, visits) > *falseFlagRate(rule, visits - 1));
        QVERIFY(*falseFlagRate(rule, 200) > *falseFlagRate(rule, mostVisits));
        QVERIFY(*falseFlagRate(rule, 200) <= 1);
    }
    QVERIFY(*falseFlagRate(FlagRule::PreviousVisit, 200) > 0.999);
}

void TestFlagRates::trendAndTurnHaveThatOfTheirPlan()
{
    QVERIFY(std::abs(*falseFlagRate(FlagRule::Trend, 8) - 0.04) < 1e-12);
    QVERIFY(std::abs(*falseFlagRate(FlagRule::Trend, 200) - 0.03) < 1e-12);
    QVERIFY(std::abs(*falseFlagRate(FlagRule::Trend, 12, {12, 0.1}) - 0.08) < 1e-12);
    QCOMPARE(*falseFlagRate(FlagRule::Turn, 3), 0.0);
    QVERIFY(*falseFlagRate(FlagRule::Turn, 8) > 0.01 && *falseFlagRate(FlagRule::Turn, 8) < 0.05);
    QVERIFY(*falseFlagRate(FlagRule::Turn, 8) >= *falseFlagRate(FlagRule::Turn, 7));
    QVERIFY(!falseFlagRate(FlagRule::Trend, 5, {2, 0.05}));
}

HOUSE_TEST(TestFlagRates)

} // namespace test_flag_rates

#include "test_flag_rates.moc"
