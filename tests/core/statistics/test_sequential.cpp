#include "core/statistics/sequential.h"

#include "core/statistics/distributions.h"
#include "tests/support/test_support.h"

#include <array>
#include <cmath>

namespace test_sequential
{

using namespace statistics;

/// What the look spends, read back from its bound.
double spentAt(int visit, int planned)
{
    return 2 * normalShareBelow(-*sequentialBound(visit, planned));
}

double spentFrom(int first, int last, int planned)
{
    double spent = 0;
    for (int visit = first; visit <= last; ++visit)
        spent += spentAt(visit, planned);
    return spent;
}

class TestSequential : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void eightVisitsHaveTheirBounds()
    {
        // Worked out with a table of the normal distribution from 5 % · ((k/8)³ − ((k − 1)/8)³).
        const std::array expected = {3.01, 2.91, 2.75, 2.62, 2.50, 2.40};
        for (size_t look = 0; look < expected.size(); ++look)
            QVERIFY(std::abs(*sequentialBound(firstLook + int(look), 8) - expected[look]) < 0.005);
    }

    void thePlannedLooksSpendTheLevel()
    {
        for (int planned = firstLook; planned <= 40; ++planned)
            QVERIFY(std::abs(spentFrom(firstLook, planned, planned) - sequentialLevel) < 1e-12);
    }

    void theBoundsFallUntilThePlannedVisit()
    {
        for (int planned = firstLook; planned <= 40; ++planned) {
            for (int visit = firstLook + 1; visit <= planned; ++visit)
                QVERIFY(*sequentialBound(visit, planned) < *sequentialBound(visit - 1, planned));
        }
    }

    void aPlanOfThreeIsOneTestAtTheLevel()
    {
        // The two-sided 5 % point of the normal distribution: NIST/SEMATECH e-Handbook, 1.3.6.7.1.
        QVERIFY(std::abs(*sequentialBound(3, 3) - 1.96) < 0.0005);
    }

    void eachFurtherBlockSpendsAtMostTheLevel()
    {
        for (int planned = firstLook; planned <= 20; ++planned) {
            for (int block = 1; block < 5; ++block) {
                const double spent = spentFrom(block * planned + 1, (block + 1) * planned, planned);
                QVERIFY(spent > 0 && spent <= sequentialLevel);
            }
        }
        QCOMPARE(*sequentialBound(9, 8), *sequentialBound(9, 16));
        QCOMPARE(*sequentialBound(16, 8), *sequentialBound(16, 16));
        QCOMPARE(*sequentialBound(17, 8), *sequentialBound(17, 24));
    }

    void thereIsNoBoundBelowThreeVisits()
    {
        QVERIFY(!sequentialBound(2, 8));
        QVERIFY(!sequentialBound(0, 8));
        QVERIFY(!sequentialBound(-1, 8));
        QVERIFY(!sequentialBound(3, 2));
        QVERIFY(!sequentialBound(3, 0));
        QVERIFY(sequentialBound(3, 3));
    }
};

HOUSE_TEST(TestSequential)

} // namespace test_sequential

#include "test_sequential.moc"
