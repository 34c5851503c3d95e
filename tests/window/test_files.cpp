#include "tests/support/places.h"
#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;
using window::Person;
using window::Screen;

/// The records file stays its window's.
class TestFiles : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aSecondStartRaisesTheWindowThatIsThere();
};

void TestFiles::aSecondStartRaisesTheWindowThatIsThere()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY(person.beginClinic());
    QVERIFY(person.registerPatient());
    window::Helper second;
    QVERIFY(second.start(places::program(), {u"--records"_s, person.records()}, screen.environment()));
    QVERIFY(second.process().waitForFinished(window::longestMs));
    QVERIFY(person.waitForWindow());
    QVERIFY(person.beginVisit());
    person.test(u"toe tapping"_s, u"2\t"_s);
    QVERIFY(person.isDone(u"toe-tapping"_s, u"2"_s));
}

HOUSE_TEST(TestFiles)
#include "test_files.moc"
