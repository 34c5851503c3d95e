#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;

namespace test_room
{

using window::Person;
using window::Screen;
using window::Thing;

/// Nothing that acts lies outside the window, nor the window outside the screen, on the screens that clinics
/// have.
class TestRoom : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everythingThatActsCanBeReached_data();
    void everythingThatActsCanBeReached();
};

void TestRoom::everythingThatActsCanBeReached_data()
{
    QTest::addColumn<QSize>("size");
    QTest::addColumn<double>("scale");
    QTest::newRow("100") << QSize(1366, 768) << 1.0;
    QTest::newRow("125") << QSize(1366, 768) << 1.25;
    QTest::newRow("150") << QSize(1366, 768) << 1.5;
    QTest::newRow("200") << QSize(1920, 1080) << 2.0;
}

/// The names of what is cut off, on this page.
QStringList outside(const Person& person, const QRect& screen)
{
    static const QStringList acting = {u"push button"_s,   u"check box"_s,   u"radio button"_s,
                                       u"text"_s,          u"combo box"_s,   u"page tab"_s,
                                       u"button menu"_s,   u"spin button"_s, u"table"_s,
                                       u"toggle button"_s, u"list"_s,        u"dialog"_s};
    QStringList cut;
    for (const Thing& thing : person.things()) {
        const bool acts = acting.contains(thing.role) || (thing.role == u"frame"_s && !thing.name.isEmpty());
        if (acts && !thing.isScrolled && !screen.contains(thing.place))
            cut += u"%1 “%2” at %3, %4 to %5, %6"_s.arg(thing.role, thing.name)
                       .arg(thing.place.left())
                       .arg(thing.place.top())
                       .arg(thing.place.right())
                       .arg(thing.place.bottom());
    }
    return cut;
}

void TestRoom::everythingThatActsCanBeReached()
{
    QFETCH(QSize, size);
    QFETCH(double, scale);
    Screen screen(size);
    QVERIFY(screen.isUp());
    const QRect room(0, 0, int(size.width() / scale), int(size.height() / scale));
    const QString pictures = window::picturesFolder();
    QVERIFY(QDir().mkpath(pictures));
    Person person(screen, scale);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    QVERIFY(person.registerPatient());
    QVERIFY(person.beginVisit());
    const std::pair<QString, QStringList> pages[] = {
        {u"examination"_s, {u"ctrl+1"_s}},     {u"conditions"_s, {u"F4"_s}},
        {u"change"_s, {u"F4"_s, u"ctrl+2"_s}}, {u"trend"_s, {u"ctrl+3"_s}},
        {u"letters"_s, {u"ctrl+4"_s}},         {u"measures"_s, {u"ctrl+9"_s}},
        {u"forms"_s, {u"ctrl+8"_s}},           {u"patients"_s, {u"ctrl+0"_s}},
        {u"patient-form"_s, {u"ctrl+n"_s}}};
    QStringList cut;
    for (const auto& [page, keys] : pages) {
        person.keys(keys);
        person.pause(300);
        const QStringList found = outside(person, room);
        screen.picture().save(u"%1/%2-%3.png"_s.arg(pictures, QLatin1String(QTest::currentDataTag()), page));
        for (const QString& thing : found)
            cut += page + u": "_s + thing;
    }
    QVERIFY2(cut.isEmpty(), qPrintable(cut.join(u'\n')));
}

HOUSE_TEST(TestRoom)

} // namespace test_room

#include "test_room.moc"
