#include "core/statistics/error_study.h"

#include "tests/support/test_support.h"

#include <cmath>

namespace test_error_study
{

using statistics::ErrorStudy;
using statistics::Repeats;

/// People whose second trial differs from the first by a share of the level, now up, now down.
Repeats proportional(int people)
{
    Repeats repeats;
    for (int person = 0; person < people; ++person) {
        const double level = 10 + 4 * person;
        repeats.push_back({level, level * (person % 2 == 0 ? 1.1 : 0.9)});
    }
    return repeats;
}

class TestErrorStudy : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// The two-sided 5 % bound of a correlation of ten pairs is 0.632 in the usual tables (Fisher & Yates,
    /// from memory).
    void growthIsHeldAgainstTheTablesOfCorrelations()
    {
        ErrorStudy study;
        study.subjects = 10;
        study.growth = 0.631;
        QVERIFY(!statistics::growsWithLevel(study));
        study.growth = 0.633;
        QVERIFY(statistics::growsWithLevel(study));
        study.growth = -0.9;
        QVERIFY(!statistics::growsWithLevel(study));
        study.growth = 1;
        QVERIFY(statistics::growsWithLevel(study));
        study.subjects = 2;
        QVERIFY(!statistics::growsWithLevel(study));
    }

    void logarithmsTakeTheLevelOutOfTheError()
    {
        const Repeats measured = proportional(24);
        QVERIFY(statistics::growsWithLevel(*statistics::errorStudy(measured)));
        const auto logs = statistics::logarithms(measured);
        QVERIFY(logs);
        QCOMPARE((*logs)[1][0], std::log(14.0));
        QVERIFY(!statistics::growsWithLevel(*statistics::errorStudy(*logs)));
    }

    void onlyValuesAboveNothingHaveLogarithms()
    {
        QVERIFY(!statistics::logarithms({{1, 2}, {0, 3}}));
        QVERIFY(!statistics::logarithms({{1, 2}, {3, -3}}));
        QVERIFY(statistics::logarithms({{0.5, 2}, {3, 3}}));
    }
};

HOUSE_TEST(TestErrorStudy)

} // namespace test_error_study

#include "test_error_study.moc"
