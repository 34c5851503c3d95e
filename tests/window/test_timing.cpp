#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;

namespace test_timing
{

using window::Person;
using window::Screen;

/// What is timed by the program's own clocks.
class TestTiming : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aWalkIsTimedAndTapsAreCounted();
};

void TestTiming::aWalkIsTimedAndTapsAreCounted()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    QVERIFY(person.registerPatient());
    QVERIFY(person.beginVisit());

    const QString time = u"SELECT number FROM findings WHERE measure = 'timed-up-and-go'"_s;
    person.test(u"timed up"_s, u" "_s);
    person.pause(2'500); // a walk takes 2 s at least
    person.keys({u"space"_s});
    QVERIFY(window::comes([&] { return !person.stored(time).isEmpty(); }));
    const double seconds = person.stored(time).toDouble();
    QVERIFY2(seconds >= 2 && seconds < 20, qPrintable(person.stored(time)));

    const QString taps =
        u"SELECT number FROM findings WHERE measure = 'finger-tapping-count' AND side = 'right'"_s;
    person.test(u"finger taps"_s, u" "_s); // hands the keyboard to the counter
    person.type(QString(20, u' '));
    QVERIFY(window::comes([&] { return !person.stored(taps).isEmpty(); }));
    const double counted =
        person.stored(taps).toDouble(); // two at one instant are one, on a machine that halts
    QVERIFY2(counted > 15 && counted <= 20, qPrintable(person.stored(taps)));

    person.type(QString(3, u' ')); // late: the count is done, and locked
    person.pause(1'500);
    QCOMPARE(person.stored(taps).toDouble(), counted);
}

HOUSE_TEST(TestTiming)

} // namespace test_timing

#include "test_timing.moc"
