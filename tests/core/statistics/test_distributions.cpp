#include "core/statistics/distributions.h"

#include "tests/support/test_support.h"

namespace test_distributions
{

class DistributionsTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theShareBelowAgreesWithTables();
};

void DistributionsTest::theShareBelowAgreesWithTables()
{
    // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: area from 0 to z, plus a half.
    QVERIFY(std::abs(statistics::normalShareBelow(1.00) - 0.84134) < 5e-6);
    QVERIFY(std::abs(statistics::normalShareBelow(1.96) - 0.97500) < 5e-6);
    QVERIFY(std::abs(statistics::normalShareBelow(-1.28) - (1 - 0.89973)) < 5e-6);
}

HOUSE_TEST(DistributionsTest)

} // namespace test_distributions

#include "test_distributions.moc"
