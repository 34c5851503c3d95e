#include "core/statistics/tapping.h"

#include "tests/support/test_support.h"

#include <vector>

using namespace Qt::StringLiterals;

namespace test_tapping
{

using statistics::asymmetry;
using statistics::tapping;

/// Numbers worked by hand; there is no published example of these definitions.
class TestTapping : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void anEvenRunHasNoVariation();
    void variationIsTheDeviationOverTheMean();
    void slowingComparesTheLastThirdWithTheFirst();
    void aMiddleThatDoesNotDivideBelongsToNeitherThird();
    void aRunThatQuickensSlowsByLessThanNothing();
    void shortRunsSayLess();
    void tapsThatDoNotRiseSayNothing();
    void asymmetryIsTheDifferenceOverTheMean();
};

std::vector<double> tapsWith(const std::vector<double>& intervals)
{
    std::vector<double> taps = {0};
    for (const double interval : intervals)
        taps.push_back(taps.back() + interval);
    return taps;
}

bool isClose(std::optional<double> number, double expected)
{
    return number && std::abs(*number - expected) < 1e-9;
}

void TestTapping::anEvenRunHasNoVariation()
{
    const auto run = tapping(tapsWith({0.25, 0.25, 0.25, 0.25, 0.25, 0.25, 0.25, 0.25, 0.25, 0.25}));
    QVERIFY(run);
    QCOMPARE(run->perSecond, 4.0);
    QCOMPARE(run->meanInterval, 0.25);
    QVERIFY(isClose(run->variation, 0));
    QVERIFY(isClose(run->slowing, 0));
}

void TestTapping::variationIsTheDeviationOverTheMean()
{
    // 0.2, 0.3, 0.4: mean 0.3; squares 0.01 + 0 + 0.01 over 2 = 0.01; SD 0.1; 33.33 %.
    const auto run = tapping(tapsWith({0.2, 0.3, 0.4}));
    QVERIFY(isClose(run->meanInterval, 0.3));
    QVERIFY(isClose(run->perSecond, 1 / 0.3));
    QVERIFY(isClose(run->variation, 100.0 / 3));
}

void TestTapping::slowingComparesTheLastThirdWithTheFirst()
{
    const auto run = tapping(tapsWith({0.2, 0.2, 0.2, 0.5, 0.5, 0.5, 0.3, 0.3, 0.3}));
    QVERIFY(isClose(run->slowing, 50)); // 0.3 s against 0.2 s
}

void TestTapping::aMiddleThatDoesNotDivideBelongsToNeitherThird()
{
    const auto run = tapping(tapsWith({0.2, 0.2, 0.2, 9, 9, 9, 9, 9, 0.3, 0.3, 0.3}));
    QVERIFY(isClose(run->slowing, 50)); // 11 intervals: three, five, three
}

void TestTapping::aRunThatQuickensSlowsByLessThanNothing()
{
    const auto run = tapping(tapsWith({0.4, 0.4, 0.4, 0.3, 0.3, 0.3, 0.2, 0.2, 0.2}));
    QVERIFY(isClose(run->slowing, -50));
}

void TestTapping::shortRunsSayLess()
{
    QVERIFY(!tapping({}));
    QVERIFY(!tapping(std::vector{0.0}));
    const auto one = tapping(tapsWith({0.5}));
    QVERIFY(one);
    QCOMPARE(one->perSecond, 2.0);
    QVERIFY(!one->variation);
    QVERIFY(!tapping(tapsWith({0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2, 0.2}))->slowing);
}

void TestTapping::tapsThatDoNotRiseSayNothing()
{
    QVERIFY(!tapping(std::vector{0.0, 0.5, 0.5}));
    QVERIFY(!tapping(std::vector{0.0, 0.5, 0.4}));
}

void TestTapping::asymmetryIsTheDifferenceOverTheMean()
{
    QVERIFY(isClose(asymmetry(50, 40), 100 * 10 / 45.0));
    QVERIFY(isClose(asymmetry(40, 50), -100 * 10 / 45.0));
    QVERIFY(isClose(asymmetry(7, 7), 0));
    QVERIFY(!asymmetry(0, 0));
}

HOUSE_TEST(TestTapping)

} // namespace test_tapping

#include "test_tapping.moc"
