#include "app/session/typed_day.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_typed_day
{

class TestTypedDay : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void readsWhatCannotBeMistaken_data();
    void readsWhatCannotBeMistaken();
    void refusesTheRest_data();
    void refusesTheRest();
};

void TestTypedDay::readsWhatCannotBeMistaken_data()
{
    QTest::addColumn<QString>("typed");
    QTest::newRow("ISO 8601") << u"1951-03-04"_s;
    QTest::newRow("without noughts") << u"1951-3-4"_s;
    QTest::newRow("month in words") << u"04-Mar-1951"_s;
    QTest::newRow("small letters") << u"4 mar 1951"_s;
    QTest::newRow("whole word") << u" 4 March 1951 "_s;
    QTest::newRow("points") << u"4. March 1951"_s;
}

void TestTypedDay::readsWhatCannotBeMistaken()
{
    QFETCH(QString, typed);
    QCOMPARE(session::dayTyped(typed), std::optional(QDate(1951, 3, 4)));
}

void TestTypedDay::refusesTheRest_data()
{
    QTest::addColumn<QString>("typed");
    QTest::newRow("nothing") << QString();
    QTest::newRow("day or month first") << u"04/03/1951"_s;
    QTest::newRow("two-figure year") << u"04-Mar-51"_s;
    QTest::newRow("no such day") << u"1951-02-29"_s;
    QTest::newRow("no such month") << u"04-Mrz-1951"_s;
    QTest::newRow("year alone") << u"1951"_s;
}

void TestTypedDay::refusesTheRest()
{
    QFETCH(QString, typed);
    QVERIFY(!session::dayTyped(typed));
}

HOUSE_TEST(TestTypedDay)

} // namespace test_typed_day

#include "test_typed_day.moc"
