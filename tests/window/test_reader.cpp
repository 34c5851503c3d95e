#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;

namespace test_reader
{

using window::Person;
using window::Screen;
using window::Thing;

// States of AT-SPI 2 (at-spi2-core, atspi-constants.h).
constexpr int checked = 4, editable = 7, focusable = 11, sensitive = 24;

/// The examination as a screen reader meets it.
class TestReader : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyFieldIsNamedReadAndSet();
};

void TestReader::everyFieldIsNamedReadAndSet()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    QVERIFY(person.registerPatient());
    QVERIFY(person.beginVisit());

    const QStringList generic = {u"unknown"_s, u"filler"_s, u"panel"_s, u"invalid"_s, u"redundant object"_s};
    int stops = 0;
    QStringList nameless, ofNoRole, notSettable;
    const auto whole = person.allThings();
    for (const Thing& thing : whole) {
        if (!person.isIn(thing, focusable) || !person.isIn(thing, sensitive))
            continue;
        ++stops;
        const QString words = thing.role + u" “"_s + thing.name + u'”';
        if (thing.name.isEmpty())
            nameless += words;
        if (generic.contains(thing.role))
            ofNoRole += words;
        const bool isPressed = thing.role.endsWith(u"button"_s) || thing.role == u"check box"_s;
        if ((isPressed && person.actionsOf(thing) == 0) ||
            (thing.role == u"text"_s && !person.isIn(thing, editable)))
            notSettable += words;
    }
    qInfo("The examination holds %d focus stops: %d nameless, %d of generic role, %d unsettable.", stops,
          int(nameless.size()), int(ofNoRole.size()), int(notSettable.size()));
    QVERIFY(stops > 200);
    QVERIFY2(nameless.isEmpty(), qPrintable(nameless.join(u"; "_s)));
    QVERIFY2(ofNoRole.isEmpty(), qPrintable(ofNoRole.join(u"; "_s)));
    QVERIFY2(notSettable.isEmpty(), qPrintable(notSettable.join(u"; "_s)));

    const QString grade = u"Tapping: index finger on thumb, right, grade 2"_s;
    QVERIFY(person.act(u"radio button"_s, grade));
    QVERIFY(person.comesToBeStored(
        u"SELECT grade FROM findings WHERE measure = 'finger-tapping' AND side = 'right'"_s, u"2"_s));
    const auto key = person.thing(u"radio button"_s, grade);
    QVERIFY(key && person.isIn(*key, checked));
    QVERIFY(person.act(u"check box"_s, u"Seen: halts"_s));
    QVERIFY(
        person.comesToBeStored(u"SELECT signs FROM findings WHERE measure = 'finger-tapping'"_s, u"halts"_s));
    QVERIFY(person.put(u"Nine-hole peg test, right, trial 1"_s, u"21.5"_s));
    QVERIFY(
        person.comesToBeStored(u"SELECT number FROM findings WHERE measure = 'nine-hole-peg'"_s, u"21.5"_s));
}

HOUSE_TEST(TestReader)

} // namespace test_reader

#include "test_reader.moc"
