#include "core/values/value.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_value
{

using namespace values;

class ValueTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void onlyQuantitiesAndGradesHaveANumber();
    void gradesOrder();
    void aMissingValueSaysWhy_data();
    void aMissingValueSaysWhy();
    void doneIsNoAbsence();
    void anEmptyValueIsNotAskedAndNeverNormal();
};

void ValueTest::onlyQuantitiesAndGradesHaveANumber()
{
    QCOMPARE(number(Quantity{8.5, Unit::Second}), 8.5);
    QCOMPARE(number(Grade{3}), 3.0);
    QVERIFY(!number(Choice{u"wide"_s}));
    QVERIFY(!number(Missing{Absence::Unable, {}}));
}

void ValueTest::gradesOrder()
{
    QVERIFY(Grade{1} < Grade{2});
    QCOMPARE(Grade{2}, Grade{2});
}

void ValueTest::aMissingValueSaysWhy_data()
{
    QTest::addColumn<Absence>("absence");
    QTest::addColumn<QString>("code");
    QTest::newRow("unable") << Absence::Unable << u"unable"_s;
    QTest::newRow("not attempted") << Absence::NotAttempted << u"not-attempted"_s;
    QTest::newRow("refused") << Absence::Refused << u"refused"_s;
    QTest::newRow("not applicable") << Absence::NotApplicable << u"not-applicable"_s;
    QTest::newRow("not asked") << Absence::NotAsked << u"not-asked"_s;
}

void ValueTest::aMissingValueSaysWhy()
{
    QFETCH(Absence, absence);
    QFETCH(QString, code);
    const Value missing = Missing{absence, u"why"_s};
    QVERIFY(!isDone(missing));
    QCOMPARE(isUnable(missing), absence == Absence::Unable);
    QCOMPARE(stateCode(missing), code);
    QCOMPARE(values::code(absence), code);
    QCOMPARE(absenceFromCode(code), absence);
}

void ValueTest::doneIsNoAbsence()
{
    QVERIFY(isDone(Choice{u"wide"_s}));
    QVERIFY(!isUnable(Grade{4}));
    QCOMPARE(stateCode(Grade{0}), u"done"_s);
    QVERIFY(!absenceFromCode(u"done"_s));
    QVERIFY(!absenceFromCode(u"Unable"_s));
    QVERIFY(!absenceFromCode({}));
}

void ValueTest::anEmptyValueIsNotAskedAndNeverNormal()
{
    QCOMPARE(stateCode(Missing{}), u"not-asked"_s);
    QVERIFY(Value(Missing{}) != Value(Grade{0}));
}

HOUSE_TEST(ValueTest)

} // namespace test_value

#include "test_value.moc"
