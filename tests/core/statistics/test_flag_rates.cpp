#include "core/statistics/flag_rates.h"

#include "core/statistics/distributions.h"
#include "core/statistics/sequential.h"
#include "core/statistics/trend.h"
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
                                 FlagRule::Confirmed, FlagRule::Sequential};
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
int flagAtLast(FlagRule rule, std::span<const double> values, int plan)
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
    case FlagRule::Sequential:
        break;
    }
    const auto bound = sequentialBound(int(values.size()), plan);
    if (!bound)
        return 0;
    std::vector<double> days(values.size());
    std::iota(days.begin(), days.end(), 0.0);
    const Slope slope = *leastSquares(days, values, 1);
    const double error = (slope.high - slope.low) / (2 * 1.959963984540054);
    return std::abs(slope.value) > *bound * error ? (slope.value > 0 ? 1 : -1) : 0;
}

/// The first visit, from 1, that raises a flag; 0 for none.
int firstFlag(FlagRule rule, std::span<const double> values, bool declineOnly, int plan = planned)
{
    for (size_t visits = 2; visits <= values.size(); ++visits) {
        const int way = flagAtLast(rule, values.first(visits), plan);
        if (way < 0 || (way > 0 && !declineOnly))
            return int(visits);
    }
    return 0;
}

double tableStandardError(double rate, int simulated)
{
    return std::sqrt(rate * (1 - rate) / simulated);
}

/// The mean over the first visit's error of what `answer` says for the chances that a later visit lies beyond
/// error above and below it.
template <typename Answer>
double overFirstVisit(Answer answer)
{
    constexpr double step = 0.001;
    double sum = 0;
    for (double first = -9; first <= 9; first += step) {
        const double density = std::exp(-first * first / 2) / std::sqrt(2 * 3.14159265358979323846);
        sum +=
            step * density * answer(1 - normalShareBelow(first + beyond), normalShareBelow(first - beyond));
    }
    return sum;
}

double exactFirstVisit(int visits)
{
    return overFirstVisit(
        [visits](double above, double below) { return 1 - std::pow(1 - above - below, visits - 1); });
}

/// No two neighbouring later visits beyond error the same way: followed from visit to visit.
double exactConfirmed(int visits)
{
    return overFirstVisit([visits](double above, double below) {
        double within = 1;
        double up = 0;
        double down = 0;
        for (int visit = 2; visit <= visits; ++visit) {
            const double all = within + up + down;
            const double nextUp = above * (within + down);
            const double nextDown = below * (within + up);
            within = (1 - above - below) * all;
            up = nextUp;
            down = nextDown;
        }
        return 1 - within - up - down;
    });
}

class TestFlagRates : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theTableLiesWithinAFreshSimulation();
    void theSequentialRuleKeepsItsLevelAndFindsDecline();
    void theTableAgreesWithExactIntegrals();
    void ratesGrowWithTheVisits();
    void twentyVisitsAreTheEndOfTheTable();
    void anotherPlanIsHeldToWhatItsLooksSpend();
    void theMostOfAnotherPlanIsNeverTooLow();
};

void TestFlagRates::theTableLiesWithinAFreshSimulation()
{
    Dice dice;
    std::array<std::array<int, mostVisits + 1>, allRules.size()> flaggedBy{};
    std::array<double, mostVisits> values{};
    for (int person = 0; person < people; ++person) {
        std::ranges::generate(values, [&dice] { return dice.normal(); });
        for (size_t rule = 0; rule < allRules.size(); ++rule) {
            if (const int visit = firstFlag(allRules[rule], values, false))
                ++flaggedBy[rule][size_t(visit)];
        }
    }
    for (size_t rule = 0; rule < allRules.size(); ++rule) {
        int flagged = 0;
        for (int visits = 2; visits <= mostVisits; ++visits) {
            flagged += flaggedBy[rule][size_t(visits)];
            const double rate = *falseFlagRate(allRules[rule], visits);
            const double fresh = double(flagged) / people;
            QVERIFY2(std::abs(fresh - rate) <= 4 * tableStandardError(rate, people),
                     qPrintable(QStringLiteral("rule %1, %2 visits: %3 in the table, %4 simulated")
                                    .arg(rule)
                                    .arg(visits)
                                    .arg(rate)
                                    .arg(fresh)));
        }
    }
}

void TestFlagRates::theSequentialRuleKeepsItsLevelAndFindsDecline()
{
    Dice dice;
    int falselyFlagged = 0;
    int found = 0;
    int confirmed = 0;
    std::array<double, planned> values{};
    for (int person = 0; person < people; ++person) {
        std::ranges::generate(values, [&dice] { return dice.normal(); });
        falselyFlagged += int(firstFlag(FlagRule::Sequential, values, false) != 0);
        for (size_t visit = 0; visit < values.size(); ++visit)
            values[visit] -= 0.5 * double(visit);
        found += int(firstFlag(FlagRule::Sequential, values, true) != 0);
        confirmed += int(firstFlag(FlagRule::Confirmed, values, true) != 0);
    }
    QVERIFY(double(falselyFlagged) / people <= 0.05);
    QVERIFY(double(found) / people >= 0.75);
    QVERIFY(std::abs(double(confirmed) / people - 0.53) < 0.02); // what one confirmation alone finds
    QVERIFY(*falseFlagRate(FlagRule::Sequential, planned) <= 0.05);
}

void TestFlagRates::theTableAgreesWithExactIntegrals()
{
    for (int visits = 2; visits <= mostVisits; ++visits) {
        const double first = exactFirstVisit(visits);
        QVERIFY(std::abs(*falseFlagRate(FlagRule::FirstVisit, visits) - first) <
                4 * tableStandardError(first, 1'000'000) + 0.00005);
        const double confirmed = exactConfirmed(visits);
        QVERIFY(std::abs(*falseFlagRate(FlagRule::Confirmed, visits) - confirmed) <
                4 * tableStandardError(std::abs(confirmed), 1'000'000) + 0.00005);
    }
}

void TestFlagRates::ratesGrowWithTheVisits()
{
    for (const FlagRule rule : allRules) {
        QVERIFY(!falseFlagRate(rule, 1));
        QVERIFY(!falseFlagRate(rule, -3));
        for (int visits = 3; visits <= mostVisits; ++visits)
            QVERIFY(*falseFlagRate(rule, visits) >= *falseFlagRate(rule, visits - 1));
    }
}

void TestFlagRates::twentyVisitsAreTheEndOfTheTable()
{
    for (const FlagRule rule : allRules)
        QCOMPARE(falseFlagRate(rule, 100), falseFlagRate(rule, mostVisits));
}

void TestFlagRates::anotherPlanIsHeldToWhatItsLooksSpend()
{
    for (const int plan : {3, 4, 12, 100})
        QVERIFY(std::abs(*falseFlagRate(FlagRule::Sequential, plan, plan) - sequentialLevel) < 1e-12);
    QCOMPARE(*falseFlagRate(FlagRule::Sequential, 2, 12), 0.0);
    QVERIFY(!falseFlagRate(FlagRule::Sequential, 5, 2));
    QCOMPARE(falseFlagRate(FlagRule::FirstVisit, 5, 12), falseFlagRate(FlagRule::FirstVisit, 5));
}

void TestFlagRates::theMostOfAnotherPlanIsNeverTooLow()
{
    Dice dice;
    for (const int plan : {3, 5, 12}) {
        std::vector<double> values(size_t(plan) + 1);
        int flagged = 0;
        for (int person = 0; person < people; ++person) {
            std::ranges::generate(values, [&dice] { return dice.normal(); });
            flagged += int(firstFlag(FlagRule::Sequential, values, false, plan) != 0);
        }
        const double most = *falseFlagRate(FlagRule::Sequential, plan + 1, plan);
        QVERIFY(double(flagged) / people <= most + 4 * tableStandardError(most, people));
    }
}

HOUSE_TEST(TestFlagRates)

} // namespace test_flag_rates

#include "test_flag_rates.moc"
