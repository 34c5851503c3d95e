#include "app/widgets/dialogs.h"
#include "app/widgets/empty_state.h"
#include "app/widgets/notice.h"

#include "tests/support/test_support.h"

#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace
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

} // namespace

class TestDialogs : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void enterAcceptsAndEscapeTurnsBack();
    void acceptingButtonNamesTheAct();
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
    dialogs.tell({base::ErrorKind::Conflict, u"Another program saved this patient meanwhile."_s, {}});
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
#include "test_dialogs.moc"
