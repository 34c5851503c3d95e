#include "core/statistics/normal.h"

#include "tests/support/test_support.h"

#include <boost/math/distributions/normal.hpp>

class NormalTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theShareBelowAgreesWithTablesAndBoost();
};

void NormalTest::theShareBelowAgreesWithTablesAndBoost()
{
    // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: area from 0 to z, plus a half.
    QVERIFY(std::abs(statistics::normalShareBelow(1.00) - 0.84134) < 5e-6);
    QVERIFY(std::abs(statistics::normalShareBelow(1.96) - 0.97500) < 5e-6);
    QVERIFY(std::abs(statistics::normalShareBelow(-1.28) - (1 - 0.89973)) < 5e-6);
    const boost::math::normal normal;
    for (double z = -6; z <= 6; z += 0.25) {
        const double expected = boost::math::cdf(normal, z);
        QVERIFY(std::abs(statistics::normalShareBelow(z) - expected) <= 1e-13 * expected);
    }
}

QTEST_MAIN(NormalTest)
#include "test_normal.moc"
