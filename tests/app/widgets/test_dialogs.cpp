#include "app/widgets/dialogs.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/notice.h"
#include "app/widgets/return_key.h"

#include "tests/support/test_support.h"

#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScreen>
#include <QSignalSpy>
#include <QTimer>
#include <QToolButton>

using namespace Qt::StringLiterals;

namespace test_dialogs
{

/// Does something with the dialog that opens next.
void withNextDialog(const std::function<void(QWidget&)>& act)
{
    QTimer::singleShot(0, qApp, [act] {
        QWidget* dialog = QApplication::activeModalWidget();
        QVERIFY(dialog != nullptr);
        act(*dialog);
    });
}

class TestDialogs : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void enterAcceptsAndEscapeTurnsBack();
    void acceptingButtonNamesTheAct();
    void returnTurnsBackFromWhatWouldBeLost();
    void returnPressesTheButtonThatHasTheKeyboard();
    void oneOfSeveralAnswersIsGiven();
    void aLongExplanationScrollsAndTheAnswersStay();
    void aLineIsAskedAndTidied();
    void nobodySignsWithoutANumber();
    void authorIsTypedFromTheKeyboard();
    void whoSitsAtTheKeyboardNeedsNoRegistrationNumber();
    void anErrorSaysWhatHappenedAndWhatIsSafe();
    void aNoticeIsHiddenWhileItSaysNothing();
    void anEmptyStateOffersOneStep();
};

void TestDialogs::enterAcceptsAndEscapeTurnsBack()
{
    widgets::Dialogs dialogs;
    withNextDialog([](QWidget& dialog) { QTest::keyClick(&dialog, Qt::Key_Return); });
    QVERIFY(dialogs.confirmed(u"Discard this draft?"_s, u"It cannot be brought back."_s, u"Discard draft"_s));
    withNextDialog([](QWidget& dialog) { QTest::keyClick(&dialog, Qt::Key_Escape); });
    QVERIFY(!dialogs.confirmed(u"Discard this draft?"_s, {}, u"Discard draft"_s));
}

void TestDialogs::acceptingButtonNamesTheAct()
{
    widgets::Dialogs dialogs;
    QString act;
    withNextDialog([&act](QWidget& dialog) {
        act = dialog.findChild<QPushButton*>(u"accept"_s)->text();
        QTest::keyClick(&dialog, Qt::Key_Escape);
    });
    QVERIFY(!dialogs.confirmed(u"Sign this visit?"_s, {}, u"Sign visit"_s));
    QCOMPARE(act, u"Sign visit"_s);
}

void TestDialogs::returnTurnsBackFromWhatWouldBeLost()
{
    widgets::Dialogs dialogs;
    withNextDialog([](QWidget& dialog) { QTest::keyClick(&dialog, Qt::Key_Return); });
    QVERIFY(!dialogs.mayLose(u"Discard this draft?"_s, u"Five findings."_s, u"Discard draft"_s));
    withNextDialog(
        [](QWidget& dialog) { QTest::keyClick(dialog.findChild<QPushButton*>(u"accept"_s), Qt::Key_Space); });
    QVERIFY(dialogs.mayLose(u"Discard this draft?"_s, u"Five findings."_s, u"Discard draft"_s));
}

void TestDialogs::returnPressesTheButtonThatHasTheKeyboard()
{
    const widgets::ReturnPresses returnKey(*QCoreApplication::instance());
    widgets::Dialogs dialogs;
    withNextDialog(
        [](QWidget& dialog) { QTest::keyClick(dialog.findChild<QPushButton*>(u"back"_s), Qt::Key_Return); });
    QVERIFY(!dialogs.confirmed(u"Sign this visit?"_s, {}, u"Sign visit"_s));

    QWidget page;
    QPushButton button(u"Amend"_s, &page);
    QToolButton fold(&page);
    fold.setCheckable(true);
    QSignalSpy pressed(&button, &QPushButton::clicked);
    QTest::keyClick(&button, Qt::Key_Return);
    QTest::keyClick(&button, Qt::Key_Enter, Qt::KeypadModifier);
    QTest::keyClick(&button, Qt::Key_Return, Qt::ControlModifier);
    QCOMPARE(pressed.count(), 2);
    QTest::keyClick(&fold, Qt::Key_Return);
    QVERIFY(fold.isChecked());
    button.setEnabled(false);
    QTest::keyClick(&button, Qt::Key_Return);
    QCOMPARE(pressed.count(), 2);
}

void TestDialogs::oneOfSeveralAnswersIsGiven()
{
    widgets::Dialogs dialogs;
    const QStringList answers = {u"&Go there"_s, u"Go to the &conditions"_s, u"&Sign all the same"_s};
    withNextDialog([](QWidget& dialog) { QTest::keyClick(&dialog, Qt::Key_Return); });
    QCOMPARE(dialogs.chosen(u"Sign?"_s, u"Left blank."_s, answers), std::optional<qsizetype>(0));
    withNextDialog([](QWidget& dialog) {
        QTest::keyClick(dialog.findChild<QPushButton*>(u"answer.2"_s), Qt::Key_Space);
    });
    QCOMPARE(dialogs.chosen(u"Sign?"_s, u"Left blank."_s, answers), std::optional<qsizetype>(2));
    withNextDialog([](QWidget& dialog) { QTest::keyClick(&dialog, Qt::Key_Escape); });
    QVERIFY(!dialogs.chosen(u"Sign?"_s, u"Left blank."_s, answers));
}

void TestDialogs::aLongExplanationScrollsAndTheAnswersStay()
{
    widgets::Dialogs dialogs;
    const QString lines = QStringList(200, u"Finger tapping, right: 2 of 4"_s).join(u'\n');
    withNextDialog([](QWidget& dialog) {
        const auto* accept = dialog.findChild<QPushButton*>(u"accept"_s);
        const int screen = dialog.screen()->availableGeometry().height();
        QVERIFY2(dialog.height() <= screen, qPrintable(QString::number(dialog.height())));
        QVERIFY(dialog.rect().contains(QRect(accept->mapTo(&dialog, QPoint()), accept->size())));
        QTest::keyClick(&dialog, Qt::Key_Escape);
    });
    QVERIFY(!dialogs.confirmed(u"Write normal?"_s, lines, u"Write normal"_s));
}

void TestDialogs::aLineIsAskedAndTidied()
{
    widgets::Dialogs dialogs;
    withNextDialog([](QWidget& dialog) {
        QVERIFY(!dialog.findChild<QPushButton*>(u"accept"_s)->isEnabled());
        QTest::keyClicks(dialog.findChild<QLineEdit*>(), u"  wrong side  "_s);
        QTest::keyClick(&dialog, Qt::Key_Return);
    });
    QCOMPARE(dialogs.line(u"Why is it amended?"_s, u"Reason"_s, {}), std::optional(u"wrong side"_s));
}

void TestDialogs::nobodySignsWithoutANumber()
{
    widgets::Dialogs dialogs;
    withNextDialog([](QWidget& dialog) {
        QTest::keyClicks(dialog.findChild<QLineEdit*>(u"authorName"_s), u"A. Tester"_s);
        QTest::keyClicks(dialog.findChild<QLineEdit*>(u"authorRole"_s), u"physiotherapist"_s);
        QTest::keyClick(&dialog, Qt::Key_Return);
        QVERIFY(dialog.isVisible());
        QTest::keyClick(&dialog, Qt::Key_Escape);
    });
    QVERIFY(!dialogs.author(u"Sign this visit?"_s, {}));
}

void TestDialogs::authorIsTypedFromTheKeyboard()
{
    widgets::Dialogs dialogs;
    withNextDialog([](QWidget& dialog) {
        for (const QString& word : {u"A. Tester"_s, u"neurologist"_s, u"12-34"_s}) {
            QTest::keyClicks(dialog.focusWidget(), word);
            QTest::keyClick(dialog.focusWidget(), Qt::Key_Tab);
        }
        QTest::keyClick(&dialog, Qt::Key_Return);
    });
    const records::Author expected{u"A. Tester"_s, u"neurologist"_s, u"12-34"_s};
    QCOMPARE(dialogs.author(u"Sign this visit?"_s, {}), std::optional(expected));
}

void TestDialogs::whoSitsAtTheKeyboardNeedsNoRegistrationNumber()
{
    widgets::Dialogs dialogs;
    withNextDialog([](QWidget& dialog) {
        QTest::keyClicks(dialog.findChild<QLineEdit*>(u"authorName"_s), u"A. Tester"_s);
        QTest::keyClicks(dialog.findChild<QLineEdit*>(u"authorRole"_s), u"student"_s);
        QTest::keyClick(&dialog, Qt::Key_Return);
    });
    QCOMPARE(dialogs.person({}), (std::optional<records::Author>({u"A. Tester"_s, u"student"_s, {}})));
    withNextDialog([](QWidget& dialog) { QTest::keyClick(&dialog, Qt::Key_Escape); });
    QVERIFY(!dialogs.person({u"A. Tester"_s, u"student"_s, {}}));
}

void TestDialogs::anErrorSaysWhatHappenedAndWhatIsSafe()
{
    widgets::Dialogs dialogs;
    QString shown;
    withNextDialog([&shown](QWidget& dialog) {
        for (const QLabel* label : dialog.findChildren<QLabel*>())
            shown += label->text() + u'\n';
        QTest::keyClick(&dialog, Qt::Key_Return);
    });
    dialogs.tell(
        {base::ErrorKind::Conflict, base::said("Another program saved this patient meanwhile."), {}});
    QVERIFY(shown.contains(u"Another program saved this patient meanwhile."_s));
    QVERIFY(shown.contains(u"what you typed is kept"_s));
}

void TestDialogs::aNoticeIsHiddenWhileItSaysNothing()
{
    QWidget page;
    widgets::Notice notice(&page);
    page.show();
    QVERIFY(!notice.isVisible());
    notice.say(widgets::Notice::Kind::Caution, u"Stand behind the patient."_s);
    QVERIFY(notice.isVisible());
    QCOMPARE(notice.words(), u"Stand behind the patient."_s);
    notice.clear();
    QVERIFY(!notice.isVisible());
}

void TestDialogs::anEmptyStateOffersOneStep()
{
    widgets::EmptyState state(u"No visits yet"_s, u"What was found will stand here."_s, u"New visit"_s);
    QSignalSpy taken(&state, &widgets::EmptyState::stepTaken);
    QTest::keyClick(state.findChild<QPushButton*>(u"nextStep"_s), Qt::Key_Space);
    QCOMPARE(taken.count(), 1);
}

HOUSE_TEST(TestDialogs)

} // namespace test_dialogs

#include "test_dialogs.moc"
