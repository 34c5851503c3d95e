#include "core/values/unit.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_unit
{

using values::Unit;

class UnitTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void codesAreThoseOfTheStandard_data();
    void codesAreThoseOfTheStandard();
    void anUnknownCodeIsNoUnit();
    void aNumberStandsWithItsUnit();
};

/// The Unified Code for Units of Measure, https://ucum.org; words in braces are its annotations.
void UnitTest::codesAreThoseOfTheStandard_data()
{
    QTest::addColumn<Unit>("unit");
    QTest::addColumn<QString>("code");
    QTest::addColumn<QString>("symbol");
    QTest::newRow("bare") << Unit::One << QString() << QString();
    QTest::newRow("second") << Unit::Second << u"s"_s << u"s"_s;
    QTest::newRow("metre") << Unit::Metre << u"m"_s << u"m"_s;
    QTest::newRow("centimetre") << Unit::Centimetre << u"cm"_s << u"cm"_s;
    QTest::newRow("speed") << Unit::MetrePerSecond << u"m/s"_s << u"m/s"_s;
    QTest::newRow("count") << Unit::Count << u"{count}"_s << QString();
    QTest::newRow("steps") << Unit::Steps << u"{steps}"_s << u"steps"_s;
    QTest::newRow("cadence") << Unit::StepsPerMinute << u"{steps}/min"_s << u"steps/min"_s;
    QTest::newRow("score") << Unit::Score << u"{score}"_s << u"points"_s;
    QTest::newRow("percent") << Unit::Percent << u"%"_s << u"%"_s;
    QTest::newRow("kilogram") << Unit::Kilogram << u"kg"_s << u"kg"_s;
}

void UnitTest::codesAreThoseOfTheStandard()
{
    QFETCH(Unit, unit);
    QFETCH(QString, code);
    QFETCH(QString, symbol);
    QCOMPARE(values::code(unit), code);
    QCOMPARE(values::unitFromCode(code), unit);
    QCOMPARE(values::symbol(unit), symbol);
}

void UnitTest::anUnknownCodeIsNoUnit()
{
    for (const QString& code : {u"sec"_s, u"S"_s, u" s"_s, u"score"_s})
        QVERIFY2(!values::unitFromCode(code), qPrintable(code));
}

void UnitTest::aNumberStandsWithItsUnit()
{
    const auto with = [](const QString& number, Unit unit) { return values::withUnit(number, unit, {}); };
    QCOMPARE(with(u"12.50"_s, Unit::Second), u"12.50 s"_s);
    QCOMPARE(with(u"1"_s, Unit::Steps), u"1 step"_s);
    QCOMPARE(with(u"−1"_s, Unit::Score), u"−1 point"_s);
    QCOMPARE(with(u"+3"_s, Unit::Score), u"+3 points"_s);
    QCOMPARE(with(u"1.0"_s, Unit::Score), u"1.0 points"_s);
    QCOMPARE(with(u"7"_s, Unit::Count), u"7"_s);
    QCOMPARE(values::withUnit(base::said("%1 to %2").arg(0, 1), Unit::Score).english(), u"0 to 1 points"_s);
    QCOMPARE(values::unitWords(Unit::Score, {}), u"points"_s);
    QCOMPARE(values::unitWords(Unit::Count, {}), QString());
}

HOUSE_TEST(UnitTest)

} // namespace test_unit

#include "test_unit.moc"
