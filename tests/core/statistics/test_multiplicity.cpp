#include "core/statistics/multiplicity.h"

#include "tests/support/test_support.h"

#include <algorithm>
#include <cmath>

namespace test_multiplicity
{

using namespace statistics;

/// Benjamini & Hochberg 1995, J R Stat Soc B 57:289, section 4.1: fifteen hypotheses of a trial after
/// myocardial infarction (from memory; R's p.adjust agrees in test_outside).
const std::vector<double> published = {0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344,
                                       0.0459, 0.3240, 0.4262, 0.5719, 0.6528, 0.7590, 1.000};

class TestMultiplicity : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void thePublishedExampleKeepsItsFirstFour()
    {
        std::vector<bool> expected(published.size(), false);
        std::fill_n(expected.begin(), 4, true);
        QCOMPARE(benjaminiHochberg(published, 0.05), expected);
    }

    void theOrderOfTheMeasuresChangesNothing()
    {
        std::vector<double> turned(published.rbegin(), published.rend());
        std::vector<bool> expected(published.size(), false);
        std::fill_n(expected.rbegin(), 4, true);
        QCOMPARE(benjaminiHochberg(turned, 0.05), expected);
    }

    void aLargerPBelowItsRankCarriesTheSmallerOnes()
    {
        // 0.03 is above 0.05 · 1/3 and 0.04 above 0.05 · 2/3, yet 0.05 reaches 0.05 · 3/3.
        QCOMPARE(benjaminiHochberg(std::vector{0.03, 0.04, 0.05}, 0.05), std::vector(3, true));
        QCOMPARE(benjaminiHochberg(std::vector{0.03, 0.04, 0.051}, 0.05), std::vector(3, false));
    }

    void oneFindingIsJudgedByTheRateItself()
    {
        QCOMPARE(benjaminiHochberg(std::vector{0.05}, 0.05), std::vector{true});
        QCOMPARE(benjaminiHochberg(std::vector{0.0501}, 0.05), std::vector{false});
        QVERIFY(benjaminiHochberg({}, 0.05).empty());
    }

    void thirtyMeasuresGiveOneAndAHalfFalseFlags()
    {
        QVERIFY(std::abs(expectedFalseFlags(30, 0.95) - 1.5) < 1e-12);
        QVERIFY(std::abs(expectedFalseFlags(30, 0.90) - 3) < 1e-12);
        QCOMPARE(expectedFalseFlags(0, 0.95), 0.0);
    }

    void manyTestsFlagSomebodySomewhere()
    {
        QVERIFY(std::abs(atLeastOneFalse(1, 0.05) - 0.05) < 1e-12);
        QVERIFY(std::abs(atLeastOneFalse(10, 0.05) - 0.4013) < 5e-5); // binomial: 1 − 0.95¹⁰
        QCOMPARE(atLeastOneFalse(0, 0.05), 0.0);
    }
};

HOUSE_TEST(TestMultiplicity)

} // namespace test_multiplicity

#include "test_multiplicity.moc"
