#include "app/shell/main_window.h"
#include "core/base/text.h"
#include "core/judging/change.h"
#include "core/records/summary.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QCheckBox>
#include <QLabel>
#include <QProcess>
#include <QPushButton>
#include <QTableView>

using namespace Qt::StringLiterals;

namespace test_whole_job
{

using clinic_desk::Desk;

/// The whole window before an empty clinic, and nothing but a keyboard.
struct Keyboard : Desk {
    shell::MainWindow window{*session, answers};

    static QWidget* focused() { return QApplication::focusWidget(); }
    static void type(const QString& text) { QTest::keyClicks(focused(), text); }
    static void tab() { QTest::keyClick(focused(), Qt::Key_Tab); }
    static void key(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier)
    {
        QTest::keyClick(focused(), key, modifiers);
    }
    /// Types into one field after the other.
    static void fillIn(const QStringList& texts)
    {
        for (const QString& text : texts) {
            type(text);
            tab();
        }
    }
    void press(const QString& button) const
    {
        QTest::keyClick(window.findChild<QPushButton*>(button), Qt::Key_Space);
    }
    /// Ctrl+K, a few letters, Enter.
    static void goTo(const QString& test)
    {
        key(Qt::Key_K, Qt::ControlModifier);
        type(test);
        key(Qt::Key_Return);
    }
    static void enter(const QString& test, const QStringList& texts)
    {
        goTo(test);
        fillIn(texts);
    }
    const records::Visit& visit() const { return *session->visitInFocus(); }
    const records::Finding* finding(const QString& measure, records::Side side = records::Side::None) const
    {
        return visit().finding(measure, side);
    }
};

QString textOf(const QString& pdf)
{
    QProcess reader;
    reader.start(u"pdftotext"_s, {u"-layout"_s, pdf, u"-"_s});
    return reader.waitForFinished()
               ? base::withoutControls(QString::fromUtf8(reader.readAllStandardOutput()).simplified())
               : QString();
}

/// From an empty clinic to a letter, from the keyboard alone.
class TestWholeJob : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void fromAnEmptyClinicToALetter();

private:
    void makePatient(Keyboard& desk);
    void examineFirst(Keyboard& desk);
    void examineAgain(Keyboard& desk);
    void writeLetter(Keyboard& desk);
};

void TestWholeJob::makePatient(Keyboard& desk)
{
    desk.key(Qt::Key_N, Qt::ControlModifier);
    desk.fillIn(
        {u"Plover"_s, u"Ansa"_s, u"1958-07-09"_s, u"W-1"_s, u"female"_s, u"right"_s, u"171"_s, u"70"_s});
    desk.fillIn({u"Stroke three years ago"_s});
    desk.type(u"s"_s);
    for (int step = 0; step < 3; ++step)
        desk.key(Qt::Key_Down);
    desk.key(Qt::Key_S, Qt::ControlModifier);
    const auto all = desk.session->patients();
    QVERIFY(all && all->size() == 1);
    if (!desk.session->focus().patient)
        desk.goTo(u"plover"_s);
    QCOMPARE(desk.session->patientInFocus().family, u"Plover"_s);
    QCOMPARE(desk.session->patientInFocus().population, u"stroke-chronic"_s);
    QCOMPARE(desk.session->patientInFocus().born, std::optional(QDate(1958, 7, 9)));
}

void TestWholeJob::examineFirst(Keyboard& desk)
{
    desk.answers.text = u"2026-01-12"_s;
    desk.press(u"newVisitOnAnotherDay"_s);
    QCOMPARE(desk.visit().day, QDate(2026, 1, 12));
    desk.key(Qt::Key_F4);
    desk.fillIn({u"none"_s, u"none"_s, u"own"_s, u"none"_s, u"w"_s, u"10"_s});
    desk.key(Qt::Key_Return, Qt::ControlModifier);
    desk.enter(u"finger tapping"_s, {u"1"_s, u"3"_s});
    desk.enter(u"gait speed"_s, {u"0.62"_s});
    desk.enter(u"timed up"_s, {u"14.2"_s});
    QVERIFY(desk.finding(u"finger-tapping"_s, records::Side::Left) != nullptr);
    QCOMPARE(desk.finding(u"finger-tapping"_s, records::Side::Left)->value, values::Value(values::Grade{3}));
    QCOMPARE(desk.finding(u"timed-up-and-go"_s)->value,
             values::Value(values::Quantity{14.2, values::Unit::Second}));
    desk.press(u"signVisit"_s);
    QCOMPARE(desk.visit().state, records::VisitState::Signed);
}

void TestWholeJob::examineAgain(Keyboard& desk)
{
    desk.key(Qt::Key_N, Qt::ControlModifier | Qt::ShiftModifier);
    QCOMPARE(desk.visit().day, clinic_desk::today);
    desk.key(Qt::Key_Return, Qt::ControlModifier);
    QVERIFY(desk.visit().conditionsConfirmed);
    desk.enter(u"finger tapping"_s, {u"1"_s, u"2"_s});
    desk.enter(u"gait speed"_s, {u"0.87"_s});
    desk.enter(u"timed up"_s, {u"u"_s});
    QVERIFY(values::isUnable(desk.finding(u"timed-up-and-go"_s)->value));

    desk.enter(u"tandem"_s, {u"13"_s});
    QVERIFY(desk.finding(u"tandem-steps"_s) == nullptr);
    QVERIFY(desk.window.findChild<QLabel*>(u"tandem-steps.message"_s)->text().contains(u"0 to 10"_s));
    desk.enter(u"tandem"_s, {u"\b\b"_s + u"4"_s});
    QCOMPARE(desk.finding(u"tandem-steps"_s)->value, values::Value(values::Quantity{4, values::Unit::Steps}));
    desk.press(u"signVisit"_s);
    QCOMPARE(desk.visit().state, records::VisitState::Signed);
}

void TestWholeJob::writeLetter(Keyboard& desk)
{
    desk.key(Qt::Key_4, Qt::ControlModifier);
    desk.press(u"letterNew"_s);
    auto* question = desk.window.findChild<QWidget*>(u"letterQuestion"_s);
    QVERIFY(question != nullptr);
    QTest::keyClicks(question, u"May the walking aid be reviewed?"_s);
    auto* annex = desk.window.findChild<QCheckBox*>(u"letterAnnex"_s);
    QVERIFY(annex != nullptr);
    QTest::keyClick(annex, Qt::Key_Space);
    desk.answers.file = desk.folder.filePath(u"draft.pdf"_s);
    desk.press(u"letterPdf"_s);
    desk.press(u"letterSignOff"_s);
    desk.answers.file = desk.folder.filePath(u"letter.pdf"_s);
    desk.press(u"letterPdf"_s);
    QCOMPARE(desk.answers.told, QStringList());
}

void TestWholeJob::fromAnEmptyClinicToALetter()
{
    Keyboard desk;
    desk.window.show();
    QVERIFY(QTest::qWaitForWindowActive(&desk.window));
    for (const auto step :
         {&TestWholeJob::makePatient, &TestWholeJob::examineFirst, &TestWholeJob::examineAgain}) {
        (this->*step)(desk);
        if (QTest::currentTestFailed())
            return;
    }

    // Lewek & Sykes 2019: 0.15 m/s in chronic stroke from 0.4 to 0.8 m/s, for people who walk without a
    // helper.
    const auto changes = desk.session->changes();
    const auto gait = std::ranges::find(changes, u"gait-speed-comfortable"_s, &judging::Change::measure);
    QVERIFY(gait != changes.end());
    QCOMPARE(gait->previous->verdict, judging::Verdict::Better);
    QCOMPARE(gait->previous->threshold->improvement, 0.15);

    writeLetter(desk);
    if (QTest::currentTestFailed())
        return;
    QVERIFY(textOf(desk.folder.filePath(u"draft.pdf"_s)).contains(u"DRAFT"_s, Qt::CaseInsensitive));
    const QString letter = textOf(desk.folder.filePath(u"letter.pdf"_s));
    QVERIFY(!letter.contains(u"DRAFT"_s));
    for (const auto& words :
         {u"PLOVER, Ansa · born 09-Jul-1958 (67) · female · No. W-1"_s, u"May the walking aid be reviewed?"_s,
          u"better beyond error"_s, u"became unable"_s, u"Lewek & Sykes 2019"_s, u"0.87 m/s"_s,
          u"A. Tester"_s, u"physiotherapist"_s, u"P-1"_s})
        QVERIFY2(letter.contains(words), qPrintable(words + u" is not in: "_s + letter));
}

HOUSE_TEST(TestWholeJob)

} // namespace test_whole_job

#include "test_whole_job.moc"
