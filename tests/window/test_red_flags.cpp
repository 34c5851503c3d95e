#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;

namespace test_red_flags
{

using window::Person;
using window::Screen;

/// Someone answers a red flag with yes and signs: not before it is said what was done, and the letter says
/// it.
class TestRedFlags : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aYesIsAcknowledgedBeforeSigningAndStandsInTheLetter();
};

void TestRedFlags::aYesIsAcknowledgedBeforeSigningAndStandsInTheLetter()
{
    Screen screen({1366, 768});
    QVERIFY(screen.isUp());
    Person person(screen);
    QVERIFY2(person.beginClinic(), qPrintable(person.whatShows()));
    QVERIFY(person.registerPatient());
    QVERIFY(person.beginVisit());
    person.test(u"toe tapping"_s, u"1\t3\t"_s);
    QVERIFY(person.isDone(u"toe-tapping"_s, u"1\n3"_s));

    // The keyboard alone: the first question no, the second yes, the third taken back.
    const QString answers = u"SELECT flag, answer, action FROM red_flags ORDER BY flag DESC"_s;
    person.keys({u"ctrl+5"_s});
    QVERIFY(person.comesToShow(u"label"_s, u"0 questions answered"_s));
    person.type(u"n"_s);
    QVERIFY(person.comesToBeStored(answers, u"sudden-unsteadiness|no|"_s));
    person.keys({u"Down"_s, u"n"_s, u"Up"_s, u"BackSpace"_s});
    QVERIFY(person.comesToBeStored(answers, u"sudden-unsteadiness|no|"_s));
    person.keys({u"Up"_s});
    person.type(u"y"_s);
    const QString open = u"sudden-unsteadiness|no|\nsudden-focal-sign|yes|"_s;
    QVERIFY(person.comesToBeStored(answers, open));

    person.keys({u"ctrl+shift+s"_s});
    QVERIFY2(person.comesToShow(u"push button"_s, u"Go to the red flag"_s), qPrintable(person.whatShows()));
    QVERIFY(!person.thing(u"push button"_s, u"Sign all the same"_s));
    person.keys({u"Return"_s});
    person.pause(500);
    QCOMPARE(person.stored(u"SELECT state FROM visits"_s), u"draft"_s);
    person.type(u"Stroke team called"_s);
    QVERIFY(person.comesToBeStored(answers, open + u"Stroke team called"_s));
    QVERIFY(!person.stored(u"SELECT acted_at FROM red_flags WHERE answer = 'yes'"_s).isEmpty());
    QVERIFY2(person.sign(), qPrintable(person.whatShows()));

    person.keys({u"ctrl+4"_s});
    QVERIFY(person.comesToShow(u"push button"_s, u"New letter"_s));
    person.keys({u"space"_s});
    QVERIFY(person.comesToBeStored(u"SELECT state FROM letters"_s, u"draft"_s));
    person.keys({u"ctrl+shift+s"_s});
    QVERIFY(person.comesToShow(u"dialog"_s, u"Who signs"_s));
    person.keys({u"Return"_s});
    QVERIFY(person.comesToShow(u"push button"_s, u"Sign off"_s));
    person.keys({u"Tab"_s, u"Return"_s}); // nobody is named as recipient, so Return alone turns back
    QVERIFY(person.comesToBeStored(u"SELECT state FROM letters"_s, u"signed"_s));
    const QString body = person.stored(u"SELECT body FROM letters"_s);
    QVERIFY(
        body.contains(u"sudden weakness, numbness, loss of speech or sight: yes (Stroke team called, "_s));
    QVERIFY(body.contains(u"Red flags: 1 other asked, not present; 22 not asked."_s));
    person.keys({u"ctrl+q"_s});
    QVERIFY(person.ends());
    QCOMPARE(person.said(), QString());
}

HOUSE_TEST(TestRedFlags)

} // namespace test_red_flags

#include "test_red_flags.moc"
