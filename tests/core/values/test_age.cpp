#include "core/values/age.h"

#include "tests/support/test_support.h"

namespace test_age
{

class AgeTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void countsCompletedYears_data();
    void countsCompletedYears();
};

void AgeTest::countsCompletedYears_data()
{
    QTest::addColumn<QDate>("born");
    QTest::addColumn<QDate>("day");
    QTest::addColumn<std::optional<int>>("years");
    using Years = std::optional<int>;
    QTest::newRow("day of birth") << QDate(2000, 5, 17) << QDate(2000, 5, 17) << Years(0);
    QTest::newRow("eve of a birthday") << QDate(1951, 3, 4) << QDate(2026, 3, 3) << Years(74);
    QTest::newRow("birthday") << QDate(1951, 3, 4) << QDate(2026, 3, 4) << Years(75);
    QTest::newRow("born on 29 February, on 28 February")
        << QDate(2000, 2, 29) << QDate(2001, 2, 28) << Years(0);
    QTest::newRow("born on 29 February, on 1 March") << QDate(2000, 2, 29) << QDate(2001, 3, 1) << Years(1);
    QTest::newRow("born on 29 February, in a leap year")
        << QDate(2000, 2, 29) << QDate(2004, 2, 29) << Years(4);
    QTest::newRow("over a hundred") << QDate(1919, 12, 31) << QDate(2026, 1, 1) << Years(106);
    QTest::newRow("before the birth") << QDate(2000, 5, 17) << QDate(2000, 5, 16) << Years();
    QTest::newRow("birth not known") << QDate() << QDate(2026, 1, 1) << Years();
    QTest::newRow("no such day") << QDate(2000, 5, 17) << QDate(2025, 2, 29) << Years();
}

void AgeTest::countsCompletedYears()
{
    QFETCH(QDate, born);
    QFETCH(QDate, day);
    QFETCH(std::optional<int>, years);
    QCOMPARE(values::ageInYears(born, day), years);
}

HOUSE_TEST(AgeTest)

} // namespace test_age

#include "test_age.moc"
