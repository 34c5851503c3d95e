#include "core/base/rounding.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_rounding
{

class TestRounding : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void halvesGoAwayFromZero_data();
    void halvesGoAwayFromZero();
};

void TestRounding::halvesGoAwayFromZero_data()
{
    QTest::addColumn<double>("number");
    QTest::addColumn<int>("decimals");
    QTest::addColumn<QString>("written");
    // As decimals are rounded by hand; the nearest doubles of 4.55, 1.005 and 2.675 lie below them.
    QTest::newRow("below its double") << 4.55 << 1 << u"4.6"_s;
    QTest::newRow("two decimals") << 1.005 << 2 << u"1.01"_s;
    QTest::newRow("minus") << -2.675 << 2 << u"-2.68"_s;
    QTest::newRow("a sum of decimals") << (4.6 + 4.5) / 2 << 1 << u"4.6"_s;
    QTest::newRow("even half") << 0.5 << 0 << u"1"_s;
    QTest::newRow("odd half") << 1.5 << 0 << u"2"_s;
    QTest::newRow("just below a half") << 4.549999 << 1 << u"4.5"_s;
    QTest::newRow("never minus nothing") << -0.04 << 1 << u"0.0"_s;
    QTest::newRow("a large number") << 123456.75 << 1 << u"123456.8"_s;
}

void TestRounding::halvesGoAwayFromZero()
{
    QFETCH(double, number);
    QFETCH(int, decimals);
    QTEST(base::fixed(number, decimals), "written");
    QCOMPARE(base::rounded(number, decimals), base::fixed(number, decimals).toDouble());
}

HOUSE_TEST(TestRounding)

} // namespace test_rounding

#include "test_rounding.moc"
