#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;

namespace test_reader
{

using window::Person;
using window::Screen;
using window::Thing;

// States of AT-SPI 2 (at-spi2-core, atspi-constants.h).
constexpr int checked = 4, editable = 7, focusable = 11, focused = 12, sensitive = 24, readOnly = 43;

/// Hears what a screen reader speaks of its own accord: the names of notifications that begin to show.
class Ear : public QObject
{
    Q_OBJECT

public:
    explicit Ear(const Screen& screen) : m_screen(screen) { screen.listen(*this, SLOT(hear(QDBusMessage))); }
    bool comesToHear(const QString& words) const
    {
        return window::comes([&] { return m_heard.join(u'\n').contains(words); });
    }
    QString heard() const { return m_heard.join(u" | "_s); }

public Q_SLOTS:
    void hear(const QDBusMessage& event)
    {
        const QString accessible = u"org.a11y.atspi.Accessible"_s;
        if (event.arguments().value(0) != u"showing"_s || event.arguments().value(1) != 1)
            return;
        const auto role = m_screen.ask(event.service(), event.path(), accessible, u"GetRoleName"_s);
        if (role.arguments().value(0) != u"notification"_s)
            return;
        m_heard += m_screen
                       .ask(event.service(), event.path(), u"org.freedesktop.DBus.Properties"_s, u"Get"_s,
                            {accessible, u"Name"_s})
                       .arguments()
                       .value(0)
                       .value<QDBusVariant>()
                       .variant()
                       .toString();
    }

private:
    const Screen& m_screen;
    QStringList m_heard;
};

/// What a page lacks for someone who hears it.
struct Faults {
    int stops = 0;
    QStringList nameless, ofNoRole, notSettable;
};

/// The program as a screen reader meets it.
class TestReader : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyFieldIsNamedReadAndSet();
    void everyPageIsNamedAndRead();
};

Faults faultsOf(const Person& person)
{
    const QStringList generic = {u"unknown"_s, u"filler"_s, u"panel"_s, u"invalid"_s, u"redundant object"_s};
    Faults faults;
    for (const Thing& thing : person.allThings()) {
        if (!person.isIn(thing, focusable) || !person.isIn(thing, sensitive))
            continue;
        ++faults.stops;
        const QString words =
            u"%1 “%2” at %3, %4"_s.arg(thing.role, thing.name).arg(thing.place.x()).arg(thing.place.y());
        if (thing.name.isEmpty())
            faults.nameless += words;
        if (generic.contains(thing.role))
            faults.ofNoRole += words;
        const bool isPressed = thing.role.endsWith(u"button"_s) || thing.role == u"check box"_s;
        if ((isPressed && person.actionsOf(thing) == 0) ||
            (thing.role == u"text"_s && !person.isIn(thing, editable) && !person.isIn(thing, readOnly)))
            faults.notSettable += words;
    }
    return faults;
}

void TestReader::everyFieldIsNamedReadAndSet()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    QVERIFY(person.registerPatient());
    QVERIFY(person.beginVisit());

    const auto& [stops, nameless, ofNoRole, notSettable] = faultsOf(person);
    qInfo("The examination holds %d focus stops: %d nameless, %d of generic role, %d unsettable.", stops,
          int(nameless.size()), int(ofNoRole.size()), int(notSettable.size()));
    QVERIFY(stops > 200);
    QVERIFY2(nameless.isEmpty(), qPrintable(nameless.join(u"; "_s)));
    QVERIFY2(ofNoRole.isEmpty(), qPrintable(ofNoRole.join(u"; "_s)));
    QVERIFY2(notSettable.isEmpty(), qPrintable(notSettable.join(u"; "_s)));

    const Ear ear(screen);
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

    QVERIFY2(ear.comesToHear(u"Saved: Nine-hole peg test, right, 21.5 s"_s), qPrintable(ear.heard()));
    QVERIFY(person.put(u"Nine-hole peg test, right, trial 1"_s, u"9000"_s));
    QVERIFY2(ear.comesToHear(u"Not saved."_s), qPrintable(ear.heard()));
}

void TestReader::everyPageIsNamedAndRead()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.openDemo(), qPrintable(person.whatShows()));
    const auto isSound = [&person](const QString& page) {
        const Faults faults = faultsOf(person);
        qInfo("%s: %d focus stops.", qPrintable(page), faults.stops);
        const QStringList all = faults.nameless + faults.ofNoRole + faults.notSettable;
        if (!all.isEmpty())
            qInfo("%s", qPrintable(all.join(u"; "_s)));
        return faults.stops > 5 && all.isEmpty();
    };
    QVERIFY(isSound(u"Patients"_s));
    for (const auto& [key, role, sign, page] :
         {std::tuple(u"ctrl+7"_s, u"text"_s, u"Find in the caseload"_s, u"Caseload"_s),
          {u"ctrl+9"_s, u"push button"_s, u"Own error…"_s, u"Tests"_s},
          {u"ctrl+8"_s, u"push button"_s, u"Copy"_s, u"Forms"_s}}) {
        person.keys({key});
        QVERIFY2(person.comesToShow(role, sign), qPrintable(person.whatShows()));
        QVERIFY(isSound(page));
    }
    person.test(u"quillace"_s, {});
    QVERIFY(person.comesToShow(u"page tab"_s, u"Change"_s));
    const QStringList tabs = {u"Change"_s, u"Trend"_s, u"Letters"_s, u"Red flags"_s, u"Patterns"_s};
    for (int tab = 0; tab < tabs.size(); ++tab) {
        person.keys({u"ctrl+%1"_s.arg(tab + 2)});
        QVERIFY(window::comes([&] {
            const auto thing = person.thing(u"page tab"_s, tabs[tab]);
            return thing && person.isIn(*thing, focused); // as Qt 6.4 tells which tab is shown
        }));
        QVERIFY(isSound(tabs[tab]));
    }
}

HOUSE_TEST(TestReader)

} // namespace test_reader

#include "test_reader.moc"
