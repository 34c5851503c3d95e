#include "tests/support/test_support.h"
#include "tests/window/person.h"

using namespace Qt::StringLiterals;

namespace test_examining
{

using window::Person;
using window::Screen;

/// How many keys an examination takes from the new visit to the signed one, at 50 ms a key and without a
/// click.
class TestExamining : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void init();
    void cleanup();
    void aNormalExaminationTakesFewKeys();
    void anAbnormalOneTakesNoClick();
    void theShortFormTakesTwenty();

private:
    void signs(int visit);
    QString answered(int visit) const;
    QString value(int visit, const QString& measure) const;

    std::unique_ptr<Screen> m_screen;
    std::unique_ptr<Person> m_person;
};

/// A patient seen before, whose conditions are carried forward.
void TestExamining::init()
{
    m_screen = std::make_unique<Screen>(QSize(1366, 768));
    QVERIFY(m_screen->isUp());
    m_person = std::make_unique<Person>(*m_screen);
    QVERIFY2(m_person->beginClinic(), qPrintable(m_person->whatShows()));
    QVERIFY(m_person->registerPatient());
    QVERIFY(m_person->beginVisit());
    m_person->keys({u"F4"_s});
    m_person->type(u"none\tnone\town\tnone\tw\t10\t"_s);
    QVERIFY(m_person->comesToBeStored(u"SELECT conditions ->> 'distance_m' FROM condition_sets"_s, u"10"_s));
    m_person->keys({u"F4"_s});
    m_person->test(u"berg"_s, u"47\t"_s);
    QVERIFY(m_person->isDone(u"berg-balance"_s, u"47.0"_s));
    QVERIFY(m_person->sign());
    m_person->pressed();
}

void TestExamining::cleanup()
{
    m_person.reset();
    m_screen.reset();
}

/// Who signs is known; Return says so.
void TestExamining::signs(int visit)
{
    m_person->keys({u"ctrl+shift+s"_s});
    QVERIFY2(m_person->comesToShow(u"dialog"_s, u"Sign the visit"_s), qPrintable(m_person->whatShows()));
    m_person->keys({u"Return"_s});
    QVERIFY(m_person->comesToBeStored(u"SELECT count(*) FROM visits WHERE state = 'signed'"_s,
                                      QString::number(visit)));
}

QString TestExamining::answered(int visit) const
{
    return m_person->stored(
        u"SELECT count(*) FROM findings WHERE visit = (SELECT key FROM visits ORDER BY rowid LIMIT 1 OFFSET %1)"_s
            .arg(visit - 1));
}

QString TestExamining::value(int visit, const QString& measure) const
{
    return m_person->stored(u"SELECT coalesce(grade, choice, number, state) FROM findings WHERE measure = "
                            u"'%1' AND visit = (SELECT key FROM "
                            "visits ORDER BY rowid LIMIT 1 OFFSET %2) ORDER BY side DESC"_s.arg(measure)
                                .arg(visit - 1));
}

void TestExamining::aNormalExaminationTakesFewKeys()
{
    QElapsedTimer time;
    time.start();
    m_person->keys({u"ctrl+shift+n"_s, u"ctrl+Return"_s, u"F8"_s, u"F8"_s}); // hands, legs
    m_person->type(u"c\nc\n"_s);                                             // both holds reach their cap
    m_person->keys({u"F8"_s, u"F8"_s, u"F8"_s});                             // the sign, rising, walking
    m_person->type(u"3\n10\n"_s);                                            // the turn, tandem
    m_person->keys({u"F8"_s});                                               // toes and heels
    m_person->type(u"7.9\n8.1\n9.4\n"_s);                                    // two walks, up and go
    m_person->keys({u"F8"_s});                                               // eyes and speech
    m_person->type(u"0\n"_s);                                                // falls
    signs(2);
    if (QTest::currentTestFailed())
        return;
    const int pressed = m_person->pressed();
    qInfo("A normal examination, 22 of 22: %d keys, %.0f s at 50 ms a key", pressed,
          double(time.elapsed()) / 1'000);
    QVERIFY2(pressed <= 40, qPrintable(QString::number(pressed)));
    QCOMPARE(answered(2), u"31"_s); // 22 tests, nine of them on both sides
    QCOMPARE(value(2, u"finger-nose"_s), u"0\n0"_s);
    QCOMPARE(value(2, u"romberg-eyes-closed"_s), u"60.0"_s);
    QCOMPARE(value(2, u"romberg-sign"_s), u"negative"_s);
    QCOMPARE(value(2, u"ten-metre-walk-time-comfortable"_s), u"8.0"_s);
    QCOMPARE(value(2, u"falls-since-last-visit"_s), u"0.0"_s);
}

void TestExamining::anAbnormalOneTakesNoClick()
{
    m_person->keys({u"ctrl+shift+n"_s, u"ctrl+Return"_s});
    m_person->type(u"1\n2\n1\n3\n2\n2"_s); // tapping, alternating, finger to nose
    m_person->keys({u"F2"_s});
    m_person->type(u"worse with eyes shut\n"_s);
    m_person->keys({u"F8"_s});
    m_person->type(u"1\n3\n12\nu\n"_s);      // heel to shin; unsteady, which answers the sign
    m_person->type(u"1\n"_s);                // rising
    m_person->keys({u"F8"_s});               // walking as expected, but
    m_person->type(u"6\n4\n2\n2\n1\n1\n"_s); // the turn, tandem, toes, heels
    m_person->type(u"11.2\n11.6\n14.8\n"_s);
    m_person->keys({u"F8"_s});
    m_person->type(u"2\n"_s);
    signs(2);
    if (QTest::currentTestFailed())
        return;
    const int pressed = m_person->pressed();
    qInfo("An abnormal examination with thirteen grades, two timed tests and a note: %d keys", pressed);
    QVERIFY2(pressed <= 110, qPrintable(QString::number(pressed)));
    QCOMPARE(value(2, u"alternating-hand-movement"_s), u"1\n3"_s);
    QCOMPARE(value(2, u"heel-shin"_s), u"1\n3"_s);
    QCOMPARE(value(2, u"romberg-sign"_s), u"unsteady-eyes-open"_s);
    QCOMPARE(value(2, u"timed-up-and-go"_s), u"14.8"_s);
    QCOMPARE(m_person->stored(u"SELECT note FROM findings WHERE note <> ''"_s), u"worse with eyes shut"_s);
}

void TestExamining::theShortFormTakesTwenty()
{
    m_person->keys({u"ctrl+alt+n"_s});
    m_person->pause(1'000); // the menu of forms comes up
    m_person->keys({u"Down"_s, u"Down"_s, u"Return"_s});
    QVERIFY(m_person->comesToBeStored(u"SELECT count(*) FROM visits WHERE form = 'bedside'"_s, u"1"_s));
    m_person->keys({u"ctrl+Return"_s, u"F8"_s, u"F8"_s, u"F8"_s, u"F8"_s, u"F8"_s});
    m_person->type(u"3\n10\n"_s);
    signs(2);
    if (QTest::currentTestFailed())
        return;
    const int pressed = m_person->pressed();
    qInfo("The short form, 15 of 15: %d keys", pressed);
    QVERIFY2(pressed <= 20, qPrintable(QString::number(pressed)));
    QCOMPARE(answered(2), u"22"_s); // seven on both sides
}

HOUSE_TEST(TestExamining)

} // namespace test_examining

#include "test_examining.moc"
