#include "core/values/quantity.h"

#include "tests/support/test_support.h"

namespace test_quantity
{

using values::Quantity;
using values::Unit;

class QuantityTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void lengthsConvert();
    void lengthNeverBecomesTime();
    void unitsCountInComparison();
    void exceedsBeyondNoiseOnly_data();
    void exceedsBeyondNoiseOnly();
};

void QuantityTest::lengthsConvert()
{
    QCOMPARE((Quantity{1.75, Unit::Metre}.in(Unit::Centimetre)), (Quantity{175, Unit::Centimetre}));
    QCOMPARE((Quantity{175, Unit::Centimetre}.in(Unit::Metre)), (Quantity{1.75, Unit::Metre}));
    QCOMPARE((Quantity{3, Unit::Second}.in(Unit::Second)), (Quantity{3, Unit::Second}));
}

void QuantityTest::lengthNeverBecomesTime()
{
    QVERIFY(!(Quantity{10, Unit::Metre}.in(Unit::Second)));
    QVERIFY(!(Quantity{10, Unit::Metre}.in(Unit::MetrePerSecond)));
    QVERIFY(!(Quantity{10, Unit::Steps}.in(Unit::Count)));
}

void QuantityTest::unitsCountInComparison()
{
    QVERIFY((Quantity{1, Unit::Metre}) != (Quantity{1, Unit::Second}));
}

void QuantityTest::exceedsBeyondNoiseOnly_data()
{
    QTest::addColumn<double>("a");
    QTest::addColumn<double>("b");
    QTest::addColumn<bool>("exceeds");
    QTest::newRow("0.3 - 0.1 is 0.2") << 0.3 - 0.1 << 0.2 << false;
    QTest::newRow("0.1 + 0.2 is 0.3") << 0.1 + 0.2 << 0.3 << false;
    QTest::newRow("1.1 - 0.89 is 0.21") << 1.1 - 0.89 << 0.21 << false;
    QTest::newRow("large numbers") << 1e9 + 0.5 << 1e9 << false;
    QTest::newRow("equal") << 5.0 << 5.0 << false;
    QTest::newRow("a hundredth more") << 0.22 << 0.21 << true;
    QTest::newRow("a millionth more") << 0.210001 << 0.21 << true;
    QTest::newRow("less") << 0.2 << 0.21 << false;
    QTest::newRow("negative") << -0.2 << -0.21 << true;
}

void QuantityTest::exceedsBeyondNoiseOnly()
{
    QFETCH(double, a);
    QFETCH(double, b);
    QFETCH(bool, exceeds);
    QCOMPARE(values::exceeds(a, b), exceeds);
}

HOUSE_TEST(QuantityTest)

} // namespace test_quantity

#include "test_quantity.moc"
