#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;

namespace test_notes
{

using window::Person;
using window::Screen;

/// A note is typed, a second goes by, and then the field is left in one way or another.
class TestNotes : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void isKeptHoweverItIsLeft();
};

void TestNotes::isKeptHoweverItIsLeft()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    QVERIFY(person.registerPatient());
    QVERIFY(person.beginVisit());
    const auto again = [&] { return person.open() && person.openFirstPatient(); };
    const std::tuple<QString, QString, std::function<bool()>> ways[] = {
        {u"toe tapping"_s, u"toe-tapping"_s, [&] { return person.keys({u"Tab"_s}), true; }},
        {u"rapid alternating"_s, u"alternating-hand-movement"_s,
         [&] { return person.keys({u"Return"_s}), true; }},
        {u"finger to nose"_s, u"finger-nose"_s,
         [&] {
             return person.click(u"radio button"_s, u"Rapid alternating hand movement, left, grade 1"_s);
         }},
        {u"heel tapping"_s, u"heel-tapping"_s,
         [&] {
             return person.keys({u"ctrl+2"_s, u"ctrl+1"_s}), true;
         }},
        {u"heel to shin"_s, u"heel-shin"_s,
         [&] { return person.keys({u"ctrl+q"_s}), person.ends() && again(); }},
        {u"index"_s, u"finger-tapping"_s, [&] { return person.kill(), again(); }}};
    for (const auto& [name, measure, leave] : ways) {
        person.test(name, u"2"_s);
        person.keys({u"F2"_s});
        person.type(u"tired after "_s + measure);
        person.pause(1'000);
        QVERIFY2(leave(), qPrintable(measure));
        QVERIFY2(
            person.comesToBeStored(u"SELECT grade, note FROM findings WHERE measure = '"_s + measure + u'\'',
                                   u"2|tired after "_s + measure),
            qPrintable(measure + u": "_s + person.stored(u"SELECT measure, note FROM findings"_s)));
        person.test(name, {}); // and is there on coming back
        QVERIFY2(window::comes([&] { return person.noteShown() == u"tired after "_s + measure; }),
                 qPrintable(measure + u" shows “"_s + person.noteShown() + u"”"_s));
    }
}

HOUSE_TEST(TestNotes)

} // namespace test_notes

#include "test_notes.moc"
