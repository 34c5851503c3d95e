#include "tests/support/places.h"
#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;

namespace test_files
{

using window::Person;
using window::Screen;

/// The records file stays its window's.
class TestFiles : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aSecondStartRaisesTheDraftBeingTyped();
    void noFileDialogOnTheRecordsFolderLetsAnotherWriterIn();

private:
    /// What another program hears that would write.
    static QString refusal(const Person& person, const Screen& screen)
    {
        QProcess other;
        other.setProcessEnvironment(screen.environment());
        const QString own = screen.home() + u"/own.json"_s;
        other.start(places::program(), {u"catalogue"_s, u"read"_s, own, u"--records"_s, person.records()});
        other.write(person.password.toUtf8() + '\n');
        other.closeWriteChannel();
        other.waitForFinished(window::longestMs);
        return other.exitCode() == 1 ? QString::fromUtf8(other.readAllStandardError()) : QString();
    }
};

void TestFiles::aSecondStartRaisesTheDraftBeingTyped()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    QVERIFY(person.registerPatient());
    QVERIFY(person.beginVisit());
    person.test(u"toe tapping"_s, u"2"_s);
    person.keys({u"F2"_s});
    person.type(u"stops at"_s);
    window::Helper second;
    QVERIFY(second.start(places::program(), {person.records()}, screen.environment()));
    QVERIFY(second.process().waitForFinished(window::longestMs));
    QCOMPARE(second.process().exitCode(), 0);
    QVERIFY(person.waitForWindow());
    person.type(u" six"_s);
    QVERIFY(person.comesToBeStored(u"SELECT grade, note FROM findings"_s, u"2|stops at six"_s));
}

void TestFiles::noFileDialogOnTheRecordsFolderLetsAnotherWriterIn()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    QVERIFY(person.registerPatient());
    for (int round = 0; round < 2; ++round) {
        QVERIFY2(person.click(u"button menu"_s, u"More"_s), qPrintable(person.whatShows()));
        person.keys({u"Down"_s, u"Down"_s, u"Down"_s, u"Down"_s, u"Right"_s, u"Down"_s, u"Return"_s});
        QVERIFY2(person.comesToShow(u"dialog"_s, u"Write the clinic's own catalogue"_s),
                 qPrintable(person.whatShows()));
        person.keys({u"ctrl+a"_s});
        person.type(screen.home());
        person.keys({u"Return"_s});
        // A folder beside the records, whose name the filter hides: the dialog asks after every file.
        QVERIFY2(person.comesToShow(u"tree item"_s, u"state"_s), qPrintable(person.whatShows()));
        QVERIFY(window::comes([&] { // the first one closes the list of names
            person.keys({u"Escape"_s});
            return !person.thing(u"push button"_s, u"Cancel"_s);
        }));
    }
    const QString heard = refusal(person, screen);
    QVERIFY2(heard.startsWith(u"These records are open elsewhere: "_s) && heard.count(u'\n') == 1,
             qPrintable(heard));
    QVERIFY(person.beginVisit());
    person.test(u"toe tapping"_s, u"2\t"_s);
    QVERIFY(person.isDone(u"toe-tapping"_s, u"2"_s));
}

HOUSE_TEST(TestFiles)

} // namespace test_files

#include "test_files.moc"
