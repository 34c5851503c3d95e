#include "core/statistics/scatter.h"

#include "core/statistics/distributions.h"
#include "tests/support/test_support.h"

#include <array>
#include <cmath>

namespace test_scatter
{

using namespace statistics;

class TestScatter : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void successiveDifferencesGiveTheScatter()
    {
        GrowingScatter scatter;
        scatter.add(4);
        QVERIFY(!scatter.scatter());
        for (const double value : {6.0, 3.0, 3.0})
            scatter.add(value);
        QVERIFY(std::abs(scatter.scatter()->deviation - std::sqrt((4 + 9 + 0) / 6.0)) < 1e-12);
        QVERIFY(std::abs(scatter.scatter()->degrees - 2 * 9 / 8.0) < 1e-12);
        QCOMPARE(degreesOfScatter(1), 0.0);
        QCOMPARE(degreesOfScatter(2), 1.0);
    }

    void theErrorLiesBetweenBoth()
    {
        const double degrees = degreesOfScatter(8);
        const double used = shrunkError(1, {2, degrees});
        QVERIFY(used > 1 && used < 2);
        QVERIFY(std::abs(used * used - (20 + degrees * 4) / (20 + degrees)) < 1e-12);
        QVERIFY(std::abs(shrunkError(3, {3, 5}) - 3) < 1e-12);
        QVERIFY(shrunkError(1, {0, degrees}) > 0.8); // never far below the published one
    }

    /// Two-sided 5 % limits for four to eight earlier visits, worked out by an independent biostatistician.
    void theLimitsOfFourToEightVisits()
    {
        const std::array expected = {3.48, 3.04, 2.80, 2.64, 2.52};
        for (size_t i = 0; i < expected.size(); ++i)
            QVERIFY(std::abs(*scatterLimit(int(i) + 4, 0.05) - expected[i]) < 0.015);
    }

    /// One difference has one degree of freedom: t of Student with one.
    void twoVisitsAreStudentsWithOneDegree()
    {
        for (const double p : {0.5, 0.1, 0.05, 0.01})
            QVERIFY(std::abs(*scatterLimit(2, p) / -studentQuantile(p / 2, 1) - 1) < 1e-3);
    }

    void manyVisitsAreNormal() { QVERIFY(std::abs(*scatterLimit(400, 0.05) - 1.96) < 0.015); }

    void thereIsNoLimitWithoutVisitsOrProbability()
    {
        QVERIFY(!scatterLimit(1, 0.05));
        QVERIFY(!scatterLimit(5, 0));
        QVERIFY(!scatterLimit(5, 1));
    }
};

HOUSE_TEST(TestScatter)

} // namespace test_scatter

#include "test_scatter.moc"
