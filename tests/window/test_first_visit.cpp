#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;

namespace test_first_visit
{

using window::Person;
using window::Screen;

/// The program on a screen, with a hand at its keyboard: from nothing to a letter.
class TestFirstVisit : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aNewUserExaminesAndWrites();

private:
    void examine(Person& person);
    void write(Person& person, const QString& letter);
};

void TestFirstVisit::examine(Person& person)
{
    person.keys({u"F4"_s});
    person.type(u"none\tnone\town\tnone\tw\t10\t"_s);
    QVERIFY(person.comesToBeStored(u"SELECT conditions ->> 'distance_m' FROM condition_sets"_s, u"10"_s));
    person.keys({u"F4"_s});
    const std::tuple<QString, QString, QString, QString> tests[] = {
        {u"toe tapping"_s, u"1\t3\t"_s, u"toe-tapping"_s, u"1\n3"_s},
        {u"rapid alternating"_s, u"0\t2\t"_s, u"alternating-hand-movement"_s, u"0\n2"_s},
        {u"finger to nose"_s, u"1\t1\t"_s, u"finger-nose"_s, u"1\n1"_s},
        {u"heel to shin"_s, u"u\t2\t"_s, u"heel-shin"_s, u"unable\n2"_s},
        {u"romberg, eyes open"_s, u"30\t"_s, u"romberg-eyes-open"_s, u"30.0"_s},
        {u"gait speed"_s, u"0.62\t"_s, u"gait-speed-comfortable"_s, u"0.62"_s},
        {u"timed up"_s, u"14.2\t"_s, u"timed-up-and-go"_s, u"14.2"_s},
        {u"tandem"_s, u"4\t"_s, u"tandem-steps"_s, u"4.0"_s},
        {u"berg"_s, u"47\t"_s, u"berg-balance"_s, u"47.0"_s}};
    for (const auto& [name, typed, measure, values] : tests) {
        person.test(name, typed);
        QVERIFY2(person.isDone(measure, values), qPrintable(measure));
    }
}

void TestFirstVisit::write(Person& person, const QString& letter)
{
    // Three keys to a letter, one sentence, three keys to sign it.
    person.keys({u"ctrl+4"_s});
    QVERIFY(person.comesToShow(u"push button"_s, u"New letter"_s));
    person.keys({u"space"_s});
    QVERIFY(person.comesToBeStored(u"SELECT state FROM letters"_s, u"draft"_s));
    person.type(u"Balance training twice a week, seen again in May."_s);
    QVERIFY(person.comesToBeStored(u"SELECT plan FROM letters"_s,
                                   u"Balance training twice a week, seen again in May."_s));
    person.keys({u"ctrl+shift+s"_s});
    QVERIFY(person.comesToShow(u"dialog"_s, u"Who signs"_s));
    person.keys({u"Return"_s});
    QVERIFY(person.comesToShow(u"push button"_s, u"Sign off"_s));
    person.keys({u"Tab"_s, u"Return"_s}); // nobody is named as recipient, so Return alone turns back
    QVERIFY(person.comesToBeStored(u"SELECT state FROM letters"_s, u"signed"_s));
    QVERIFY(person.click(u"push button"_s, u"Save PDF"_s));
    QVERIFY(person.comesToShow(u"dialog"_s, u"Save the letter"_s));
    person.keys({u"ctrl+a"_s});
    person.type(letter);
    person.keys({u"Return"_s});
    QVERIFY(window::comes([&] { return QFileInfo(letter).size() > 0; }));
}

void TestFirstVisit::aNewUserExaminesAndWrites()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QElapsedTimer time;
    time.start();
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    QVERIFY(person.registerPatient());
    QVERIFY(person.beginVisit());
    examine(person);
    if (QTest::currentTestFailed())
        return;
    QVERIFY(person.sign());
    const QString letter = screen.home() + u"/letter.pdf"_s;
    write(person, letter);
    if (QTest::currentTestFailed())
        return;
    qInfo("A first visit, from an empty clinic to a letter: %.0f s", double(time.elapsed()) / 1'000);
    QVERIFY(window::output(u"pdftotext"_s, {u"-layout"_s, letter, u"-"_s}, screen.environment())
                .contains(u"PLOVER, Ansa"_s));
    person.keys({u"ctrl+q"_s});
    QVERIFY(person.ends());
    QCOMPARE(person.said(), QString());
}

HOUSE_TEST(TestFirstVisit)

} // namespace test_first_visit

#include "test_first_visit.moc"
