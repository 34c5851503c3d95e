#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;

namespace test_monday
{

using window::Person;
using window::Screen;

/// A Monday morning at the caseload of the demo clinic.
class TestMonday : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void sixPatientsAreSeenAndWhoIsWorseIsPrinted();

private:
    static bool comesToSay(const Person& person, const QString& count)
    {
        return window::comes([&] { return person.thing(u"label"_s, count).has_value(); });
    }
    static QStringList walk(Person& person, int patients);
    static QString print(Person& person, const Screen& screen);
};

/// The family names on the banner, from the first of the list on.
QStringList TestMonday::walk(Person& person, int patients)
{
    QStringList seen;
    const auto comesAnother = [&] {
        return window::comes([&] {
            for (const window::Thing& thing : person.things()) {
                const QString family =
                    thing.name.section(u',', 0, 0).remove(QChar(0x2068)).remove(QChar(0x2069));
                if (thing.role == u"label"_s && thing.name.contains(u" · born "_s) &&
                    !seen.contains(family)) {
                    seen += family;
                    return true;
                }
            }
            return false;
        });
    };
    person.keys({u"Return"_s});
    while (comesAnother() && seen.size() < patients)
        person.keys({u"ctrl+Next"_s});
    return seen;
}

/// What the list says on paper.
QString TestMonday::print(Person& person, const Screen& screen)
{
    const QString file = screen.home() + u"/monday.pdf"_s;
    if (!person.click(u"push button"_s, u"Print…"_s) || // which shows the pages first
        !person.click(u"push button"_s, u"Print"_s) || !person.comesToShow(u"dialog"_s, u"Print"_s) ||
        !person.fill(u"Output file:"_s, file))
        return {};
    person.keys({u"Return"_s});
    if (!window::comes([&] { return QFileInfo(file).size() > 0; }))
        return {};
    return window::output(u"pdftotext"_s, {u"-layout"_s, file, u"-"_s}, screen.environment());
}

void TestMonday::sixPatientsAreSeenAndWhoIsWorseIsPrinted()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY(person.open());
    QElapsedTimer time;
    time.start();
    QVERIFY2(person.click(u"push button"_s, u"Look at the demo clinic"_s), qPrintable(person.whatShows()));
    QVERIFY(person.comesToShow(u"push button"_s, u"New patient"_s));
    person.keys({u"ctrl+7"_s});
    QVERIFY2(comesToSay(person, u"12 patients"_s), qPrintable(person.whatShows()));
    person.keys({u"alt+i"_s, u"Down"_s}); // of the clinician
    QVERIFY(person.comesToShow(u"combo box"_s, u"Ysolde Varnhem"_s));
    person.keys({u"ctrl+7"_s});
    const QStringList seen = walk(person, 6);
    QVERIFY2(seen.size() == 6, qPrintable(seen.join(u", "_s)));
    QCOMPARE(seen.first(3), (QStringList{u"HESPERDALE"_s, u"BRINDLEWICK"_s, u"FENNIMOOR"_s})); // unable

    person.keys({u"ctrl+7"_s, u"alt+w"_s});
    QVERIFY2(comesToSay(person, u"3 of 12 patients"_s), qPrintable(person.whatShows()));
    const QString printed = print(person, screen);
    qInfo("Six of a caseload seen and the worse printed: %.0f s", double(time.elapsed()) / 1'000);
    QVERIFY2(printed.contains(u"3 of 12 patients"_s), qPrintable(printed));
    for (const QString& family : {u"Hesperdale, "_s, u"Brindlewick, "_s, u"Lindquarrel, "_s})
        QVERIFY2(printed.contains(family), qPrintable(printed));
    QVERIFY2(!printed.contains(u"Quillace"_s) && !printed.contains(u"Fennimoor"_s), qPrintable(printed));
    person.keys({u"ctrl+q"_s});
    QVERIFY(person.ends());
    QCOMPARE(person.said(), QString());
}

HOUSE_TEST(TestMonday)

} // namespace test_monday

#include "test_monday.moc"
