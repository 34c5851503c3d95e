#include "tests/support/test_support.h"
#include "tests/window/person.h"

#include <csignal>

using namespace Qt::StringLiterals;

namespace test_ending
{

using window::Person;
using window::Screen;

/// However the program ends, what is half typed is there again.
class TestEnding : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aHalfTypedPatientOutlivesTheProgram_data();
    void aHalfTypedPatientOutlivesTheProgram();
    void whoThrowsItAwayDoesNotFindItAgain();
};

void TestEnding::aHalfTypedPatientOutlivesTheProgram_data()
{
    QTest::addColumn<int>("signal");
    QTest::newRow("the system ends it") << SIGTERM;
    QTest::newRow("killed") << SIGKILL;
}

void TestEnding::aHalfTypedPatientOutlivesTheProgram()
{
    QFETCH(int, signal);
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    person.keys({u"ctrl+n"_s});
    person.type(u"Plover\tAnsa\t1958-0"_s);
    QVERIFY(person.comesToBeStored(u"SELECT typed LIKE '%1958-0%' FROM unsaved_entries"_s, u"1"_s));
    QCOMPARE(person.end(signal), signal == SIGTERM ? 0 : SIGKILL);
    QVERIFY2(person.open(), qPrintable(person.whatShows()));
    QVERIFY2(person.comesToShow(u"push button"_s, u"Save patient"_s) && person.waitForWindow(),
             qPrintable(person.whatShows() + person.said()));
    person.keys({u"End"_s});
    person.type(u"7-09\tW-1"_s);
    person.keys({u"ctrl+s"_s});
    QVERIFY2(person.comesToBeStored(u"SELECT family, given, born, record_number FROM patients"_s,
                                    u"Plover|Ansa|1958-07-09|W-1"_s),
             qPrintable(person.whatShows()));
    QVERIFY(person.comesToBeStored(u"SELECT COUNT(*) FROM unsaved_entries"_s, u"0"_s));
}

void TestEnding::whoThrowsItAwayDoesNotFindItAgain()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    person.keys({u"ctrl+n"_s});
    person.type(u"Plover"_s);
    QVERIFY(person.comesToBeStored(u"SELECT COUNT(*) FROM unsaved_entries"_s, u"1"_s));
    person.keys({u"ctrl+q"_s});
    QVERIFY2(person.click(u"push button"_s, u"Throw away and quit"_s), qPrintable(person.whatShows()));
    QVERIFY(person.ends());
    QVERIFY(person.comesToBeStored(u"SELECT COUNT(*) FROM unsaved_entries"_s, u"0"_s));
}

HOUSE_TEST(TestEnding)

} // namespace test_ending

#include "test_ending.moc"
