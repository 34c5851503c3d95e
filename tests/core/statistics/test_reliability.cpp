#include "core/statistics/reliability.h"
#include "tests/support/test_support.h"

#include <cmath>
#include <limits>

namespace test_reliability
{

using namespace statistics;

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();
constexpr double endless = std::numeric_limits<double>::infinity();

class TestReliability : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void quantilesAreThoseOfTheTables();
    void confidenceLiesBetweenNoneAndCertainty();
    void tablesMustBeFull();
    void subjectsWhoDoNotDifferHaveNoCoefficient();
    void perfectAgreementIsOne();
    void errorNeedsADeviationAndACoefficient();
    void changeIndexNeedsAPositiveError();
    void trueScoreLiesBetweenScoreAndMean();
    void agreementNeedsPairs();
};

void TestReliability::quantilesAreThoseOfTheTables()
{
    // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1 (memory: to six decimals).
    QVERIFY(std::abs(*normalQuantile(.95) - 1.959964) < 1e-6);
    QVERIFY(std::abs(*normalQuantile(.90) - 1.644854) < 1e-6);
    QVERIFY(std::abs(*normalQuantile(.99) - 2.575829) < 1e-6);
    QVERIFY(std::abs(*normalQuantile(.5) - 0.674490) < 1e-6);
}

void TestReliability::confidenceLiesBetweenNoneAndCertainty()
{
    for (const double confidence : {0.0, 1.0, -.95, 95.0, nothing, endless}) {
        QVERIFY(!normalQuantile(confidence));
        QVERIFY(!minimalDetectableChange(1, confidence));
    }
    QVERIFY(!minimalDetectableChange(-1, .95));
    QVERIFY(!minimalDetectableChange(nothing, .95));
    QCOMPARE(*minimalDetectableChange(0, .95), 0.0);
}

void TestReliability::tablesMustBeFull()
{
    QVERIFY(!meanSquares({}));
    QVERIFY(!meanSquares({{1, 2}}));
    QVERIFY(!meanSquares({{1}, {2}}));
    QVERIFY(!meanSquares({{1, 2}, {3}}));
    QVERIFY(!meanSquares({{1, 2}, {3, nothing}}));
    QVERIFY(!meanSquares({{1, 2}, {3, endless}}));
    QVERIFY(meanSquares({{1, 2}, {3, 4}}));
}

void TestReliability::subjectsWhoDoNotDifferHaveNoCoefficient()
{
    QVERIFY(!intraclassCorrelations(*meanSquares({{5, 5}, {5, 5}})));
    QVERIFY(!intraclassCorrelations({}));
}

void TestReliability::perfectAgreementIsOne()
{
    const auto icc = intraclassCorrelations(*meanSquares({{1, 1, 1}, {2, 2, 2}, {7, 7, 7}}));
    QVERIFY(icc);
    QCOMPARE(icc->icc11, 1.0);
    QCOMPARE(icc->icc21, 1.0);
    QCOMPARE(icc->icc3k, 1.0);
}

void TestReliability::errorNeedsADeviationAndACoefficient()
{
    QVERIFY(!standardErrorOfMeasurement(-1, .9));
    QVERIFY(!standardErrorOfMeasurement(1, 1.01));
    QVERIFY(!standardErrorOfMeasurement(1, -.01));
    QVERIFY(!standardErrorOfMeasurement(nothing, .9));
    QVERIFY(!standardErrorOfMeasurement(1, nothing));
    QCOMPARE(*standardErrorOfMeasurement(4, 1), 0.0);
    QCOMPARE(*standardErrorOfMeasurement(4, 0), 4.0);
    QCOMPARE(*standardErrorOfMeasurement(4, .75), 2.0);
}

void TestReliability::changeIndexNeedsAPositiveError()
{
    QVERIFY(!reliableChangeIndex(1, 2, 0));
    QVERIFY(!reliableChangeIndex(1, 2, -1));
    QVERIFY(!reliableChangeIndex(1, 2, nothing));
    QVERIFY(!reliableChangeIndex(1, nothing, 1));
    QVERIFY(!practiceAdjustedChangeIndex(1, 2, 0, 1, 0));
    QVERIFY(!practiceAdjustedChangeIndex(1, 2, 0, endless, 1));
    QVERIFY(*reliableChangeIndex(2, 1, 1) < 0);
    QCOMPARE(*practiceAdjustedChangeIndex(10, 22, 2, 3, 4), 2.0);
}

void TestReliability::trueScoreLiesBetweenScoreAndMean()
{
    QCOMPARE(*estimatedTrueScore(80, 100, 1), 80.0);
    QCOMPARE(*estimatedTrueScore(80, 100, 0), 100.0);
    QVERIFY(!estimatedTrueScore(80, 100, 1.5));
    QVERIFY(!estimatedTrueScore(nothing, 100, .5));
}

void TestReliability::agreementNeedsPairs()
{
    const std::vector<double> three = {1, 2, 3};
    const std::vector<double> two = {1, 2};
    const std::vector<double> broken = {1, nothing, 3};
    QVERIFY(!limitsOfAgreement(three, two, 2));
    QVERIFY(!limitsOfAgreement({}, {}, 2));
    QVERIFY(!limitsOfAgreement(std::span(three).first(1), std::span(two).first(1), 2));
    QVERIFY(!limitsOfAgreement(three, broken, 2));
    QVERIFY(!limitsOfAgreement(three, three, nothing));
    const auto same = limitsOfAgreement(three, three, 1.96);
    QVERIFY(same);
    QCOMPARE(same->lower, 0.0);
    QCOMPARE(same->upper, 0.0);
}

HOUSE_TEST(TestReliability)

} // namespace test_reliability

#include "test_reliability.moc"
