#include "core/statistics/quartiles.h"

#include "tests/support/test_support.h"

namespace test_quartiles
{

using namespace statistics;

class TestQuartiles : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// Python's statistics.quantiles(…, n=4, method='inclusive'); test_outside asks R.
    void quartilesLieBetweenNumbers()
    {
        QCOMPARE(quartiles({1, 2, 3, 4}), (Quartiles{1.75, 2.5, 3.25}));
        QCOMPARE(quartiles({7, 7, 8, 30, 2, 11, 4}), (Quartiles{5.5, 7, 9.5}));
        QCOMPARE(quartiles({3, 1, 4, 1, 5, 9, 2, 6}), (Quartiles{1.75, 3.5, 5.25}));
    }

    /// R's quantile(…, type = 1); its median is Python's statistics.median_low.
    void quartilesOfStepsAreSteps()
    {
        QCOMPARE(quartilesOfSteps({1, 2, 3, 4}), (Quartiles{1, 2, 3}));
        QCOMPARE(quartilesOfSteps({4, 0, 1, 1, 3}), (Quartiles{1, 1, 3}));
    }

    void oneNumberIsAllOfThem()
    {
        QCOMPARE(quartiles({2.5}), (Quartiles{2.5, 2.5, 2.5}));
        QCOMPARE(quartilesOfSteps({3}), (Quartiles{3, 3, 3}));
    }

    void noNumbersHaveNone()
    {
        QVERIFY(!quartiles({}));
        QVERIFY(!quartilesOfSteps({}));
    }
};

HOUSE_TEST(TestQuartiles)

} // namespace test_quartiles

#include "test_quartiles.moc"
