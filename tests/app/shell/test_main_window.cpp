#include "app/shell/main_window.h"
#include "app/shell/patient_page.h"

#include "app/own/own_error_page.h"
#include "app/shell/settings.h"
#include "app/widgets/notice.h"
#include "app/widgets/page_stack.h"
#include "app/writing/author_setting.h"
#include "core/base/text.h"
#include "core/catalogue/own.h"
#include "core/records/happening.h"
#include "core/storage/audit_trail.h"
#include "core/storage/patients.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/paces.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPrintPreviewWidget>
#include <QPushButton>
#include <QScreen>
#include <QScrollBar>
#include <QStackedWidget>
#include <QTabBar>
#include <QTabWidget>
#include <QTableView>
#include <QTextBrowser>
#include <QTimer>

using namespace Qt::StringLiterals;

namespace test_main_window
{

using clinic_desk::Desk;

/// The program's window on a clinic of two, as a person has it in front of them.
struct AtWork : Desk {
    records::Patient halden = add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4), u"L-0042"_s);
    records::Patient voss = add(u"Voss"_s, u"Osric"_s, QDate(1980, 1, 2));
    shell::MainWindow window{*session, answers};

    bool isShown()
    {
        window.show();
        return QTest::qWaitForWindowActive(&window);
    }

    template <class Widget>
    Widget* widget(const QString& name)
    {
        return window.findChild<Widget*>(name);
    }

    void press(const QString& button) { QTest::keyClick(widget<QPushButton>(button), Qt::Key_Space); }
    void key(Qt::Key key, Qt::KeyboardModifiers modifiers) { QTest::keyClick(&window, key, modifiers); }
};

class TestMainWindow : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void refreshReadsTheFileAgainAndKeepsUndo();
    void detailsOfThePatientInFocusAreTakenBack();
    void enterOnAPatientShowsTheirIdentity();
    void findGoesToAPatientFromAnywhere();
    void findLeadsToATestOfTheOpenExamination();
    void findOpensTheHandbookWhereNoExaminationIs();
    void theHandbookOfTheFocusedTestAndBack();
    void visitsThatUsedAMeasureOpenFromItsPage();
    void theClinicsOwnIsBegunFromTheHandbook();
    void theOwnErrorIsReachedFromTheHandbookAndLeadsBack();
    void aStudyBecomesAThresholdInTheEditor();
    void findSaysWhenNothingIsFound();
    void escapeLeavesTheFindField();
    void aVisitIsBegunSignedAndAmendedFromTheKeyboard();
    void theStatusLineSaysWhatIsComparedWith();
    void theNextOfTheCaseloadOpensOnTheSameTab();
    void restAsExpectedIsStatedInTheWindow();
    void theSignerIsRemembered();
    void theSignerOfOneVisitNeedNotSitAtTheKeyboard();
    void whoSitsAtTheKeyboardIsInTheBarAndChangedThere();
    void whoSatHereIsThereAgainNextTime();
    void aVisitIsMarkedAsEnteredInError();
    void turningBackFromEnteredInErrorLeavesTheVisit();
    void aSecondVisitOfTodayGoesOnWithTheFirst();
    void anEarlierDayIsTypedAndTheFutureRefused();
    void aDraftIsDiscardedOnlyWhenConfirmed();
    void undoAndRedoNameWhatTheyDo();
    void undoNamesAllThatItTakesBack();
    void aTextThatIsNotRecordedIsNotSignedOver();
    void amongManyNobodyIsInFocus();
    void editingFromTheBannerComesBack();
    void unsavedTypingKeepsTheWindowOpen();
    void demoIsSaidOnEveryScreen();
    void everythingFitsASmallWindow();
    void theBarFitsANarrowWindow();
    void theWindowIsNoLargerThanItsScreen();
    void whatIsDoneMostIsReachedOnASmallScreen_data();
    void whatIsDoneMostIsReachedOnASmallScreen();
    void signingListsWhatIsLeftBlankAndGoesThere();
    void signingLeadsToTheConditionsThatAreNotRecorded();
    void signingListsNothingWhereNothingIsOpen();
    void discardingNamesThePatientAndWhatWouldBeLost();
    void findAndHandbookLeadBackToWhereOneWas();
    void aQuestionTurnedBackFromLeadsToTheField();
    void aLongIdentityTakesASecondLine();
    void aClickChoosesWhatWasFound();
    void theKeyboardFollowsToThePageAndTheRibbon();
    void anEventIsEnteredInTwoKeysFromTheRibbon();
    void theQuestionAboutFallsTakesNoKeyboard();
    void printingShowsThePagesFromEveryPage();
    void keysDoWhatTheyDoElsewhere();
    void theMenuOpensByItsKey();
};

/// By either key; in the examination F5 is the next open test.
void TestMainWindow::refreshReadsTheFileAgainAndKeepsUndo()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    const auto rename = [&](const QString& family) {
        records::Patient other = *desk.session->patient(desk.halden.id);
        other.family = family;
        QVERIFY(storage::Patients(desk.session->store()).save(other)); // behind the session's back
    };
    rename(u"Vendel"_s);
    auto* table = desk.widget<QTableView>(u"patientTable"_s);
    const auto first = [&] { return table->model()->index(0, 0).data().toString(); };
    QCOMPARE(first(), u"Halden"_s);
    desk.key(Qt::Key_F5, Qt::NoModifier);
    QCOMPARE(first(), u"Vendel"_s);

    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today, false);
    QVERIFY(!desk.session->edits().last().empty());
    rename(u"Quorn"_s);
    desk.key(Qt::Key_R, Qt::ControlModifier);
    QCOMPARE(desk.session->patientInFocus().family, u"Quorn"_s);
    QVERIFY(!desk.session->edits().last().empty());
    QVERIFY(desk.answers.told.isEmpty());
}

void TestMainWindow::detailsOfThePatientInFocusAreTakenBack()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    records::Patient taller = desk.session->patientInFocus();
    taller.heightCm = 171;
    QVERIFY(desk.session->savePatient(taller));
    QVERIFY2(desk.widget<QPushButton>(u"undo"_s)->text().contains(u": height”"_s),
             qPrintable(desk.widget<QPushButton>(u"undo"_s)->text()));
    desk.window.setFocus();
    desk.key(Qt::Key_Z, Qt::ControlModifier);
    QVERIFY(!desk.session->patientInFocus().heightCm);
    desk.key(Qt::Key_Y, Qt::ControlModifier);
    QCOMPARE(desk.session->patientInFocus().heightCm, std::optional(171.0));
}

/// Presses keys into the dialog that comes up next, whatever in it has the keyboard.
void atNextDialog(const std::function<void(QWidget&)>& act)
{
    QTimer::singleShot(0, qApp, [act] {
        QWidget* dialog = QApplication::activeModalWidget();
        QVERIFY(dialog != nullptr);
        act(*dialog);
    });
}

void TestMainWindow::printingShowsThePagesFromEveryPage()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    int shown = 0;
    const auto print = [&](QWidget* where) {
        atNextDialog([&shown](QWidget& dialog) {
            const auto* pages = dialog.findChild<QPrintPreviewWidget*>();
            shown += pages != nullptr && pages->pageCount() > 0 ? 1 : 0;
            dialog.close();
        });
        QTest::keyClick(where, Qt::Key_P, Qt::ControlModifier);
        desk.window.activateWindow(); // keys of a window reach it once it is active again
        QVERIFY(desk.isShown());
    };
    desk.key(Qt::Key_7, Qt::ControlModifier);
    print(&desk.window);
    QCOMPARE(shown, 1);
    desk.key(Qt::Key_9, Qt::ControlModifier);
    print(&desk.window);
    QCOMPARE(shown, 2);
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(QDate(2025, 9, 1), true, 1);
    desk.addVisit(clinic_desk::today);
    desk.window.showTab(1);
    print(desk.widget<QTableView>(u"changeTable"_s));
    QCOMPARE(shown, 3);
    desk.window.showTab(2);
    print(desk.widget<QTableView>(u"overviewTable"_s));
    QCOMPARE(shown, 4);
    QTest::keyClick(desk.widget<QTableView>(u"overviewTable"_s), Qt::Key_Return);
    print(&desk.window);
    QCOMPARE(shown, 5);
    desk.window.showTab(3);
    QTest::keyClick(desk.widget<QWidget>(u"lettersEmpty"_s)->findChild<QPushButton*>(u"nextStep"_s),
                    Qt::Key_Space);
    QVERIFY(desk.widget<QPushButton>(u"letterPrint"_s)->isVisible());
    print(&desk.window);
    QCOMPARE(shown, 6);
}

/// As QKeySequence has them: find, close.
void TestMainWindow::keysDoWhatTheyDoElsewhere()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.key(Qt::Key_F, Qt::ControlModifier);
    QTRY_VERIFY(desk.widget<QLineEdit>(u"find"_s)->hasFocus());
    desk.key(Qt::Key_9, Qt::ControlModifier);
    desk.key(Qt::Key_F, Qt::ControlModifier);
    QTRY_VERIFY(desk.widget<QLineEdit>(u"measureSearch"_s)->hasFocus());
    desk.key(Qt::Key_W, Qt::ControlModifier);
    QVERIFY(!desk.window.isVisible());
}

void TestMainWindow::theMenuOpensByItsKey()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    bool isOpen = false;
    QTimer::singleShot(0, &desk.window, [&isOpen] {
        QWidget* menu = QApplication::activePopupWidget();
        isOpen = menu != nullptr && menu->close();
    });
    // Of the platform without a screen.
    QTest::ignoreMessage(QtWarningMsg, "This plugin does not support raise()");
    QTest::ignoreMessage(QtWarningMsg, "This plugin does not support grabbing the keyboard");
    desk.key(Qt::Key_F10, Qt::NoModifier);
    QVERIFY(isOpen);
}

void TestMainWindow::anEventIsEnteredInTwoKeysFromTheRibbon()
{
    paces::each([](Pace& pace) {
        AtWork desk;
        QVERIFY(desk.isShown());
        desk.window.openPatient(desk.halden.id);
        desk.addVisit(clinic_desk::today);
        pace.keyAt(&desk.window, Qt::Key_F6);
        QCOMPARE(desk.window.focusWidget()->objectName(), u"visitRibbon"_s);
        atNextDialog([&pace](QWidget& dialog) { pace.keyAt(&dialog, Qt::Key_Return); });
        pace.typeAt(&desk.window, u"r"_s);
        QCOMPARE(desk.session->happenings().size(), 1U);
        QCOMPARE(desk.session->happenings().front().from, clinic_desk::today);
        QCOMPARE(desk.window.focusWidget()->objectName(), u"visitRibbon"_s);
        atNextDialog([](QWidget& dialog) { dialog.close(); });
        desk.widget<QPushButton>(u"happenings"_s)->click();
        QCOMPARE(desk.session->happenings().size(), 1U);
    });
}

void TestMainWindow::theQuestionAboutFallsTakesNoKeyboard()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(QDate(2026, 1, 12));
    auto* line = desk.widget<QWidget>(u"askedLine"_s);
    QVERIFY(!line->isVisible());
    desk.key(Qt::Key_N, Qt::ControlModifier | Qt::ShiftModifier);
    QVERIFY(line->isVisible());
    const QWidget* field = desk.window.focusWidget();
    QVERIFY(!line->isAncestorOf(field));
    desk.window.showTab(1);
    QVERIFY(!line->isVisible());
    desk.window.showTab(0);
    QVERIFY(line->isVisible());
    desk.key(Qt::Key_N, Qt::AltModifier);
    paces::letPass(200); // a button that is pressed by its letter stays down for a moment
    QVERIFY(!line->isVisible());
    QCOMPARE(desk.window.focusWidget(), field);
    QVERIFY(desk.session->asked(desk.session->visitInFocus()->id) != nullptr);
}

void TestMainWindow::enterOnAPatientShowsTheirIdentity()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    QTest::keyClicks(desk.widget<QLineEdit>(u"patientSearch"_s), u"hald"_s);
    QTest::keyClick(desk.widget<QLineEdit>(u"patientSearch"_s), Qt::Key_Return);
    QCOMPARE(desk.session->focus().patient, std::optional(desk.halden.id));
    auto* identity = desk.widget<QLabel>(u"identity"_s);
    QVERIFY(identity->isVisible());
    QCOMPARE(
        identity->text(),
        u"<b>\u2068HALDEN\u2069</b>, \u2068Mirrit\u2069 · born 04-Mar-1951 (75) · sex not recorded · No. "
        "\u2068L-0042\u2069"_s);
}

void TestMainWindow::findGoesToAPatientFromAnywhere()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.key(Qt::Key_K, Qt::ControlModifier);
    auto* find = desk.widget<QLineEdit>(u"find"_s);
    QTest::keyClicks(find, u"voss"_s);
    QCOMPARE(desk.widget<QListWidget>(u"findResults"_s)->count(), 1);
    QTest::keyClick(find, Qt::Key_Return);
    QCOMPARE(desk.session->focus().patient, std::optional(desk.voss.id));
    QVERIFY(find->text().isEmpty());
}

void TestMainWindow::findLeadsToATestOfTheOpenExamination()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    auto* find = desk.widget<QLineEdit>(u"find"_s);
    auto* results = desk.widget<QListWidget>(u"findResults"_s);
    desk.key(Qt::Key_K, Qt::ControlModifier);
    QTest::keyClicks(find, u"toe tap"_s);
    QVERIFY(results->item(0)->text().contains(u"handbook"_s));
    QTest::keyClick(find, Qt::Key_Escape);

    desk.addVisit(clinic_desk::today, false);
    QTest::keyClicks(find, u"toe tap"_s);
    QVERIFY(results->item(0)->text().contains(u"toe tapping"_s, Qt::CaseInsensitive));
    QVERIFY(!results->item(0)->text().contains(u"handbook"_s));
    QTest::keyClick(find, Qt::Key_Return);
    QVERIFY(!results->isVisible());
}

void TestMainWindow::findOpensTheHandbookWhereNoExaminationIs()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.key(Qt::Key_K, Qt::ControlModifier);
    auto* find = desk.widget<QLineEdit>(u"find"_s);
    QTest::keyClicks(find, u"berg"_s);
    QTest::keyClick(find, Qt::Key_Return);
    QVERIFY(desk.widget<QTextBrowser>(u"handbook"_s)->isVisible());
    QVERIFY(desk.widget<QTextBrowser>(u"handbook"_s)->toPlainText().startsWith(u"Berg"_s));
    QVERIFY(desk.widget<QPushButton>(u"measures"_s)->isChecked());
    desk.key(Qt::Key_Escape, Qt::NoModifier);
    QVERIFY(desk.widget<QTableView>(u"patientTable"_s)->isVisible());
}

void TestMainWindow::theHandbookOfTheFocusedTestAndBack()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today, false);
    auto* find = desk.widget<QLineEdit>(u"find"_s);
    desk.key(Qt::Key_K, Qt::ControlModifier);
    QTest::keyClicks(find, u"toe tap"_s);
    QTest::keyClick(find, Qt::Key_Return);
    desk.press(u"strip.handbook"_s);
    auto* handbook = desk.widget<QTextBrowser>(u"handbook"_s);
    QVERIFY(handbook->isVisible());
    QVERIFY(handbook->toPlainText().startsWith(u"Toe tapping"_s));
    desk.key(Qt::Key_Escape, Qt::NoModifier);
    QVERIFY(!handbook->isVisible());
    QVERIFY(desk.widget<QLabel>(u"identity"_s)->isVisible());
    QVERIFY(desk.widget<QLabel>(u"strip.title"_s)->text().startsWith(u"Toe tapping"_s));
}

void TestMainWindow::visitsThatUsedAMeasureOpenFromItsPage()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    const records::VisitId first = desk.addVisit(QDate(2026, 1, 12));
    desk.addVisit(clinic_desk::today);
    desk.window.openPatient(desk.voss.id);
    desk.window.showHandbook(u"toe-tapping"_s);
    desk.widget<QTabWidget>(u"measureTabs"_s)->setCurrentIndex(2);
    auto* uses = desk.widget<QTableView>(u"uses"_s);
    QCOMPARE(uses->model()->rowCount(), 2);
    QTest::keyClick(uses, Qt::Key_Down);
    QTest::keyClick(uses, Qt::Key_Return);
    QCOMPARE(desk.session->focus().patient, std::optional(desk.halden.id));
    QCOMPARE(desk.session->focus().visit, std::optional(first));
    QVERIFY(desk.widget<QLabel>(u"identity"_s)->isVisible());
}

void TestMainWindow::theClinicsOwnIsBegunFromTheHandbook()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.key(Qt::Key_9, Qt::ControlModifier);
    desk.press(u"ownThreshold"_s);
    QVERIFY(desk.widget<QPushButton>(u"forms"_s)->isChecked());
    QVERIFY(!desk.widget<QTextBrowser>(u"handbook"_s)->isVisible());
}

void TestMainWindow::theOwnErrorIsReachedFromTheHandbookAndLeadsBack()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.showHandbook(u"nine-hole-peg"_s);
    desk.press(u"ownError"_s);
    const auto* study = desk.widget<QLabel>(u"studyTitle"_s);
    QVERIFY(study->isVisible());
    QVERIFY(study->text().contains(clinic_desk::book().measure(u"nine-hole-peg"_s)->title));
    QVERIFY(desk.widget<QPushButton>(u"measures"_s)->isChecked());
    desk.press(u"studyBack"_s);
    QVERIFY(!study->isVisible());
    QCOMPARE(desk.window.focusWidget()->objectName(), u"measureList"_s);
    QVERIFY(desk.widget<QTextBrowser>(u"handbook"_s)->isVisible());
    desk.press(u"ownError"_s);
    desk.key(Qt::Key_9, Qt::ControlModifier); // who comes again finds the handbook
    QVERIFY(desk.widget<QTextBrowser>(u"handbook"_s)->isVisible());
}

void TestMainWindow::aStudyBecomesAThresholdInTheEditor()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.showHandbook(u"nine-hole-peg"_s);
    desk.press(u"ownError"_s);
    catalogue::Threshold row;
    row.measure = u"nine-hole-peg"_s;
    row.improvement = row.decline = 2.9;
    row.confidence = 0.95;
    row.n = 24;
    Q_EMIT desk.window.findChild<own::OwnErrorPage*>()->thresholdAsked(
        row, {{}, u"Own error study, 2026-03-12"_s, {}, u"Own error study"_s});
    const auto* number = desk.widget<QLineEdit>(u"n"_s);
    QVERIFY(number->isVisible());
    QCOMPARE(number->text(), u"24"_s);
    QCOMPARE(desk.widget<QLineEdit>(u"reference"_s)->text(), u"Own error study, 2026-03-12"_s);
}

void TestMainWindow::findSaysWhenNothingIsFound()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.key(Qt::Key_K, Qt::ControlModifier);
    auto* find = desk.widget<QLineEdit>(u"find"_s);
    QTest::keyClicks(find, u"xyz"_s);
    QTest::keyClick(find, Qt::Key_Return);
    QCOMPARE(find->text(), u"xyz"_s);
    QVERIFY(!desk.session->focus().patient);
}

void TestMainWindow::escapeLeavesTheFindField()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.key(Qt::Key_K, Qt::ControlModifier);
    auto* find = desk.widget<QLineEdit>(u"find"_s);
    QTest::keyClicks(find, u"voss"_s);
    QTest::keyClick(find, Qt::Key_Escape);
    QVERIFY(find->text().isEmpty());
    QVERIFY(!desk.widget<QListWidget>(u"findResults"_s)->isVisible());
}

void TestMainWindow::aVisitIsBegunSignedAndAmendedFromTheKeyboard()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.key(Qt::Key_N, Qt::ControlModifier | Qt::ShiftModifier);
    QVERIFY(desk.session->visitInFocus() != nullptr);
    QCOMPARE(desk.session->visitInFocus()->day, clinic_desk::today);
    QVERIFY(desk.widget<QLabel>(u"lines"_s)->text().contains(u"12-Mar-2026, draft"_s));

    desk.press(u"signVisit"_s);
    QCOMPARE(desk.session->visitInFocus()->state, records::VisitState::Signed);
    QVERIFY(
        desk.widget<QLabel>(u"statusWords"_s)->text().contains(u"Signed by A. Tester, physiotherapist"_s));
    QVERIFY(!desk.widget<QPushButton>(u"signVisit"_s)->isVisible());
    QVERIFY(!desk.widget<QPushButton>(u"versions"_s)->isVisible());

    desk.key(Qt::Key_2, Qt::ControlModifier);
    desk.press(u"amendVisit"_s);
    QCOMPARE(desk.session->visitInFocus()->amendmentReason, u"wrong side"_s);
    QVERIFY(desk.widget<QPushButton>(u"versions"_s)->isVisible());
    QVERIFY(desk.answers.told.isEmpty());
}

void TestMainWindow::theStatusLineSaysWhatIsComparedWith()
{
    AtWork desk;
    desk.session->choosePatient(desk.halden.id);
    const auto first = desk.addVisit(QDate(2025, 6, 2));
    desk.addVisit(QDate(2025, 12, 1));
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    const auto& lines = *desk.widget<QLabel>(u"lines"_s);
    const QString visit = u"This visit: 01-Dec-2025, signed · "_s;
    QCOMPARE(lines.text(), visit + u"no reference visit chosen"_s);
    desk.key(Qt::Key_2, Qt::ControlModifier);
    QCOMPARE(lines.text(), visit + u"compared with: whole course"_s);
    auto& against = *desk.widget<QComboBox>(u"against"_s);
    QTest::keyClick(&against, Qt::Key_Down);
    QCOMPARE(lines.text(), visit + u"compared with: previous"_s);
    desk.session->chooseReference(first);
    QCOMPARE(lines.text(), visit + u"compared with: reference visit, 02-Jun-2025"_s);
    desk.key(Qt::Key_3, Qt::ControlModifier);
    QCOMPARE(lines.text(), visit + u"held against 02-Jun-2025, signed"_s);
    desk.session->chooseReference({});
    QCOMPARE(lines.text(), visit + u"no reference visit chosen"_s);
    desk.key(Qt::Key_2, Qt::ControlModifier);
    QCOMPARE(lines.text(), visit + u"compared with: whole course"_s);
}

void TestMainWindow::theNextOfTheCaseloadOpensOnTheSameTab()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    for (const auto& id : {desk.halden.id, desk.voss.id}) {
        desk.session->choosePatient(id);
        desk.addVisit(QDate(2025, 12, 1));
    }
    desk.key(Qt::Key_7, Qt::ControlModifier);
    auto& cases = *desk.widget<QTableView>(u"caseTable"_s);
    QTRY_COMPARE(cases.model()->rowCount(), 2);
    QTRY_COMPARE(desk.widget<QLabel>(u"caseProgress"_s)->text(), QString());
    QTest::keyClick(&cases, Qt::Key_Return);
    const auto first = desk.session->focus().patient;
    for (const int tab : {1, 0}) {
        desk.window.showTab(tab);
        desk.key(Qt::Key_PageDown, Qt::ControlModifier);
        QVERIFY(desk.session->focus().patient && desk.session->focus().patient != first);
        QCOMPARE(desk.widget<QTabBar>(u"tabs"_s)->currentIndex(), tab);
        desk.key(Qt::Key_PageUp, Qt::ControlModifier);
        QCOMPARE(desk.session->focus().patient, first);
    }
}

/// No other key of the window takes it.
void TestMainWindow::restAsExpectedIsStatedInTheWindow()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.key(Qt::Key_N, Qt::ControlModifier | Qt::ShiftModifier);
    const auto before = desk.session->visitInFocus()->findings.size();
    QTest::keyClick(desk.window.focusWidget(), Qt::Key_F8);
    QVERIFY(desk.session->visitInFocus()->findings.size() > before);
}

void TestMainWindow::theSignerIsRemembered()
{
    AtWork desk;
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today, false);
    desk.press(u"signVisit"_s);
    QCOMPARE(writing::lastAuthor(), *desk.answers.signer);
    QCOMPARE(desk.session->person(), *desk.answers.signer);
    QCOMPARE(desk.widget<QPushButton>(u"person"_s)->text(), u"A. Tester"_s);
}

void TestMainWindow::theSignerOfOneVisitNeedNotSitAtTheKeyboard()
{
    AtWork desk;
    desk.press(u"person"_s);
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today, false);
    desk.press(u"signVisit"_s);
    QCOMPARE(desk.answers.offered, *desk.answers.atKeyboard);
    QCOMPARE(desk.session->visitInFocus()->author, *desk.answers.signer);
    QCOMPARE(desk.session->person(), *desk.answers.atKeyboard);
    QCOMPARE(writing::lastAuthor(), *desk.answers.atKeyboard);
}

void TestMainWindow::whoSitsAtTheKeyboardIsInTheBarAndChangedThere()
{
    AtWork desk;
    auto* person = desk.widget<QPushButton>(u"person"_s);
    QCOMPARE(person->text(), u"Who are you?"_s);
    QVERIFY(person->toolTip().contains(u"“tester”"_s));
    desk.answers.atKeyboard.reset();
    desk.press(u"person"_s);
    QCOMPARE(person->text(), u"Who are you?"_s);
    desk.answers.atKeyboard = records::Author{u"B. & C. Keys"_s, u"neurologist"_s, u"N-2"_s};
    desk.press(u"person"_s);
    QCOMPARE(person->text(), u"B. && C. Keys"_s);
    QVERIFY(person->toolTip().contains(u"B. & C. Keys, neurologist, N-2"_s));
    desk.answers.atKeyboard = records::Author{u"D. Next"_s, u"physiotherapist"_s, {}};
    desk.press(u"person"_s);
    QCOMPARE(desk.answers.offered.name, u"B. & C. Keys"_s);
    QCOMPARE(person->text(), u"D. Next"_s);
    QVERIFY(desk.session->saveClinic({u"Hillside Clinic"_s, {}, {}}));
    QCOMPARE(storage::AuditTrail(desk.session->store()).newest(1)->front().who,
             u"D. Next, physiotherapist"_s);
}

void TestMainWindow::whoSatHereIsThereAgainNextTime()
{
    Desk desk;
    const records::Author keys{u"B. Keys"_s, u"neurologist"_s, u"N-2"_s};
    writing::rememberAuthor(keys);
    const shell::MainWindow window(*desk.session, desk.answers);
    QCOMPARE(desk.session->person(), keys);
    QCOMPARE(window.findChild<QPushButton*>(u"person"_s)->text(), u"B. Keys"_s);
    QVERIFY(desk.session->saveClinic({u"Hillside Clinic"_s, {}, {}}));
    QVERIFY(desk.answers.asked.isEmpty());
}

void TestMainWindow::aVisitIsMarkedAsEnteredInError()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(QDate(2026, 1, 5));
    desk.addVisit(clinic_desk::today);
    desk.answers.text = u"this was Osric Voss"_s;
    desk.press(u"withdrawVisit"_s);
    QVERIFY(base::withoutControls(desk.answers.asked.front()).contains(u"HALDEN, Mirrit"_s));
    const records::Visit* visit = desk.session->visitInFocus();
    QVERIFY(visit->withdrawn);
    QCOMPARE(visit->withdrawn->author, *desk.answers.signer); // who signed sits at the keyboard
    QCOMPARE(desk.session->visits().size(), size_t(1));
    QVERIFY(!desk.widget<QPushButton>(u"withdrawVisit"_s)->isVisibleTo(&desk.window));
    QVERIFY(desk.widget<QPushButton>(u"versions"_s)->isVisibleTo(&desk.window));
    QVERIFY(desk.widget<QLabel>(u"statusWords"_s)->text().startsWith(u"Entered in error"_s));
    QCOMPARE(desk.widget<QLabel>(u"lines"_s)->text(), u"This visit: 12-Mar-2026, entered in error"_s);
    const auto words = desk.window.findChild<widgets::Notice*>(u"signed"_s)->words();
    QVERIFY2(words.contains(u"“this was Osric Voss”"_s), qPrintable(words));
    desk.key(Qt::Key_2, Qt::ControlModifier);
    QVERIFY(!desk.widget<QPushButton>(u"amendVisit"_s)->isVisibleTo(&desk.window));
    const auto saysSo = [](const QLabel* label) {
        return label->isVisible() && label->text() == u"This visit was entered in error"_s;
    };
    QVERIFY(std::ranges::any_of(desk.window.findChildren<QLabel*>(), saysSo));
    QVERIFY(desk.answers.told.isEmpty());
}

void TestMainWindow::turningBackFromEnteredInErrorLeavesTheVisit()
{
    AtWork desk;
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today);
    desk.answers.text.reset();
    desk.press(u"withdrawVisit"_s);
    QVERIFY(!desk.session->visitInFocus()->withdrawn);
    QVERIFY(desk.answers.told.isEmpty());
}

void TestMainWindow::aSecondVisitOfTodayGoesOnWithTheFirst()
{
    AtWork desk;
    desk.window.openPatient(desk.halden.id);
    desk.press(u"newVisit"_s);
    desk.press(u"newVisit"_s);
    QCOMPARE(desk.session->visits().size(), size_t(1));
}

void TestMainWindow::anEarlierDayIsTypedAndTheFutureRefused()
{
    AtWork desk;
    desk.window.openPatient(desk.halden.id);
    desk.answers.text = u"01-Feb-2026"_s;
    desk.press(u"newVisitOnAnotherDay"_s);
    QCOMPARE(desk.session->visitInFocus()->day, QDate(2026, 2, 1));
    desk.answers.text = u"2026-03-13"_s;
    desk.press(u"newVisitOnAnotherDay"_s);
    QCOMPARE(desk.session->visits().size(), size_t(1));
    QVERIFY(desk.answers.told.first().contains(u"future"_s));
    desk.answers.text = u"1950-01-01"_s;
    desk.press(u"newVisitOnAnotherDay"_s);
    QVERIFY(desk.answers.told.last().contains(u"birth date"_s));
}

void TestMainWindow::aDraftIsDiscardedOnlyWhenConfirmed()
{
    AtWork desk;
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today, false);
    desk.answers.isConfirmed = false;
    desk.press(u"discardDraft"_s);
    QCOMPARE(desk.session->visits().size(), size_t(1));
    desk.answers.isConfirmed = true;
    desk.press(u"discardDraft"_s);
    QVERIFY(desk.session->visits().empty());
}

void TestMainWindow::undoAndRedoNameWhatTheyDo()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    const auto visit = desk.addVisit(clinic_desk::today, false);
    const auto stored = [&] {
        return desk.session->visitInFocus()->finding(u"toe-tapping"_s, records::Side::Right) != nullptr;
    };
    QVERIFY(!visit.isNull());
    QVERIFY(desk.widget<QPushButton>(u"undo"_s)->text().startsWith(u"Undo “Toe tapping"_s));
    desk.window.setFocus();
    desk.key(Qt::Key_Z, Qt::ControlModifier);
    QVERIFY(!stored());
    QVERIFY(desk.widget<QPushButton>(u"redo"_s)->text().contains(u"right: clear (2)"_s));
    desk.key(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
    QVERIFY(stored());
}

void TestMainWindow::undoNamesAllThatItTakesBack()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    const auto visit = desk.addVisit(clinic_desk::today, false);
    const auto undo = [&] { return desk.widget<QPushButton>(u"undo"_s)->toolTip(); };
    records::Finding noted = *desk.session->visitInFocus()->finding(u"toe-tapping"_s, records::Side::Right);
    noted.note = u"cold feet"_s;
    QVERIFY(desk.session->saveFinding(visit, noted));
    QVERIFY2(undo().startsWith(u"Toe tapping right: note"_s), qPrintable(undo()));
    QVERIFY(desk.session->saveConditions(visit, {{u"aid"_s, u"stick"_s}}, true));
    QVERIFY2(undo().startsWith(u"Walking aid: Stick"_s), qPrintable(undo()));
    desk.widget<QPushButton>(u"section.upper-limb-coordination.all-normal"_s)->click();
    QVERIFY2(undo().contains(u" findings done and as expected: Tapping: index finger on thumb"_s),
             qPrintable(undo()));
    desk.key(Qt::Key_Z, Qt::ControlModifier);
    QCOMPARE(desk.session->visitInFocus()->findings.size(), size_t(1));
    desk.key(Qt::Key_Z, Qt::ControlModifier);
    QVERIFY(desk.session->visitInFocus()->conditions.empty());
}

void TestMainWindow::aTextThatIsNotRecordedIsNotSignedOver()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today, false);
    auto* steps = desk.widget<QLineEdit>(u"tandem-steps"_s);
    steps->setFocus();
    QTest::keyClicks(steps, u"13"_s);
    desk.key(Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier);
    QCOMPARE(desk.session->visitInFocus()->state, records::VisitState::Draft);
    QVERIFY2(desk.answers.told.value(0).contains(u"“13”"_s), qPrintable(desk.answers.told.join(u'\n')));
    QCOMPARE(steps->text(), u"13"_s);
    desk.answers.isConfirmed = false;
    QVERIFY(!desk.window.close());
    QVERIFY(desk.answers.asked.join(u'\n').contains(u"“13”"_s));
    QTest::keyClick(steps, Qt::Key_Backspace);
    desk.answers.isConfirmed = true;
    desk.key(Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier);
    QCOMPARE(desk.session->visitInFocus()->state, records::VisitState::Signed);
    QCOMPARE(desk.session->visitInFocus()->finding(u"tandem-steps"_s, records::Side::None)->value,
             values::Value(values::Quantity{1, values::Unit::Steps}));
}

void TestMainWindow::amongManyNobodyIsInFocus()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.key(Qt::Key_0, Qt::ControlModifier);
    QVERIFY(!desk.session->focus().patient);
    QVERIFY(desk.widget<QTableView>(u"patientTable"_s)->isVisible());
    QVERIFY(!desk.widget<QLabel>(u"identity"_s)->isVisible());
}

void TestMainWindow::editingFromTheBannerComesBack()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.press(u"editIdentity"_s);
    auto* given = desk.widget<QLineEdit>(u"given"_s);
    QVERIFY(given->isVisible());
    given->selectAll();
    QTest::keyClicks(given, u"Mira"_s);
    desk.press(u"savePatient"_s);
    QVERIFY(desk.widget<QLabel>(u"identity"_s)->isVisible());
    QVERIFY(desk.widget<QLabel>(u"identity"_s)->text().contains(u"Mira"_s));
}

void TestMainWindow::unsavedTypingKeepsTheWindowOpen()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.press(u"newPatient"_s);
    QTest::keyClicks(desk.widget<QLineEdit>(u"family"_s), u"Brandt"_s);
    desk.answers.isConfirmed = false;
    desk.window.close();
    QVERIFY(desk.window.isVisible());
    desk.answers.isConfirmed = true;
    desk.window.close();
    QVERIFY(!desk.window.isVisible());
}

void TestMainWindow::demoIsSaidOnEveryScreen()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    auto* mark = desk.widget<QLabel>(u"demoMark"_s);
    QVERIFY(!mark->isVisible());
    records::Clinic clinic = desk.session->clinic();
    clinic.isDemo = true;
    QVERIFY(desk.session->saveClinic(clinic));
    QVERIFY(mark->isVisible());
    desk.window.openPatient(desk.halden.id);
    QVERIFY(mark->isVisible());
}

void TestMainWindow::everythingFitsASmallWindow()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(QDate(2026, 1, 12));
    desk.addVisit(clinic_desk::today, false);
    desk.window.resize(1024, 700);
    const auto* page = desk.window.findChild<widgets::PageScroll*>();
    for (int tab = 0; tab < shell::PatientPage::tabCount; ++tab) {
        desk.window.showTab(tab);
        QCoreApplication::processEvents();
        const QSize needed = page->widget()->minimumSizeHint();
        const QString words = u"%1: %2 × %3"_s.arg(tab).arg(needed.width()).arg(needed.height());
        QVERIFY2(!page->horizontalScrollBar()->isVisible(), qPrintable(words));
        QVERIFY2(!page->verticalScrollBar()->isVisible(), qPrintable(words));
    }
}

void TestMainWindow::theWindowIsNoLargerThanItsScreen()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    const QRect room = desk.window.screen()->availableGeometry();
    QVERIFY2(room.contains(desk.window.geometry()), qPrintable(QString::number(desk.window.height())));
    desk.window.resize(700, 500);
    desk.window.close();
    const shell::MainWindow again(*desk.session, desk.answers);
    QCOMPARE(again.size(), QSize(700, 500));
}

void TestMainWindow::whatIsDoneMostIsReachedOnASmallScreen_data()
{
    QTest::addColumn<QSize>("size");
    // What is left of the screen for a window, less its frame and a bar of the desktop.
    QTest::newRow("1366 x 768") << QSize(1358, 690);
    QTest::newRow("1366 x 768 at 125 %") << QSize(1084, 536);
    QTest::newRow("1366 x 768 at 150 %") << QSize(902, 434);
    QTest::newRow("1920 x 1080 at 200 %") << QSize(952, 462);
}

void TestMainWindow::whatIsDoneMostIsReachedOnASmallScreen()
{
    QFETCH(const QSize, size);
    AtWork desk;
    records::Clinic clinic = desk.session->clinic();
    clinic.name = u"Clinic for movement at the old mill, department of balance"_s;
    clinic.isDemo = true;
    QVERIFY(desk.session->saveClinic(clinic));
    desk.window.resize(size);
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(QDate(2026, 1, 12));
    desk.addVisit(clinic_desk::today, false);
    QCoreApplication::processEvents();
    QCOMPARE(desk.window.size(), size);
    const auto isSeen = [&](const QString& name) {
        const auto* widget = desk.widget<QWidget>(name);
        const QRect place(widget->mapTo(&desk.window, QPoint()), widget->size());
        return widget->isVisible() && desk.window.rect().contains(place) &&
               !widget->visibleRegion().isEmpty() &&
               widget->visibleRegion().boundingRect().size() == widget->size();
    };
    for (const QString& name :
         {u"signVisit"_s, u"discardDraft"_s, u"newVisit"_s, u"strip.note"_s, u"strip.how"_s, u"strip.title"_s,
          u"find"_s, u"more"_s, u"conditions.change"_s, u"finger-tapping.right.keys"_s})
        QVERIFY2(isSeen(name), qPrintable(name));
    for (const QString& name : {u"undo"_s, u"editIdentity"_s, u"finger-tapping.left.keys"_s}) {
        desk.widget<QWidget>(name)->setFocus();
        QVERIFY2(isSeen(name), qPrintable(name));
    }
    for (int tab = 0; tab < shell::PatientPage::tabCount; ++tab) {
        desk.window.showTab(tab);
        QCoreApplication::processEvents();
        QVERIFY2(isSeen(u"signVisit"_s), qPrintable(QString::number(tab)));
    }
    desk.window.editPatient(desk.halden.id);
    QCoreApplication::processEvents();
    QVERIFY(isSeen(u"savePatient"_s));
}

void TestMainWindow::signingListsWhatIsLeftBlankAndGoesThere()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today, false);
    desk.answers.choice = 0;
    desk.key(Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier);
    QCOMPARE(desk.session->visitInFocus()->state, records::VisitState::Draft);
    QCOMPARE(desk.answers.asked.size(), 1);
    const QString asked = base::withoutControls(desk.answers.asked.first(), base::Breaks::Allowed);
    QVERIFY2(asked.contains(u"HALDEN, Mirrit"_s), qPrintable(asked));
    QVERIFY2(asked.contains(u"Romberg"_s) && asked.contains(u"Timed up and go"_s), qPrintable(asked));
    QVERIFY2(!asked.contains(u"Toe tapping"_s), qPrintable(asked));
    QCOMPARE(desk.window.focusWidget()->objectName(), u"finger-tapping.right.keys"_s);
    desk.answers.choice.reset(); // sign all the same
    desk.key(Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier);
    QCOMPARE(desk.session->visitInFocus()->state, records::VisitState::Signed);
}

void TestMainWindow::signingLeadsToTheConditionsThatAreNotRecorded()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today, false);
    records::Finding hold;
    hold.measure = u"romberg-eyes-open"_s;
    hold.value = values::Quantity{30, values::Unit::Second};
    QVERIFY(bool(desk.session->saveFinding(desk.session->visitInFocus()->id, hold)));
    desk.answers.choice = 1;
    desk.key(Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier);
    QVERIFY2(desk.answers.asked.first().contains(u"Footwear"_s), qPrintable(desk.answers.asked.first()));
    QCOMPARE(desk.session->visitInFocus()->state, records::VisitState::Draft);
    QVERIFY(desk.widget<QWidget>(u"conditions"_s)->findChild<QWidget*>(u"condition.orthosis"_s)->isVisible());
    QCOMPARE(desk.window.focusWidget()->objectName(), u"condition.orthosis"_s);
}

void TestMainWindow::signingListsNothingWhereNothingIsOpen()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    catalogue::Form form;
    form.id = u"toes"_s;
    form.title = u"Toes"_s;
    form.isOwn = true;
    form.sections = {{u"Toes"_s, {u"toe-tapping"_s}}};
    catalogue::Own own;
    own.forms = {form};
    QVERIFY(bool(desk.session->saveOwn(own)));
    QVERIFY(bool(desk.session->startVisit(clinic_desk::today, u"toes"_s)));
    for (const records::Side side : {records::Side::Right, records::Side::Left}) {
        records::Finding finding;
        finding.measure = u"toe-tapping"_s;
        finding.side = side;
        finding.value = values::Grade{1};
        QVERIFY(bool(desk.session->saveFinding(desk.session->visitInFocus()->id, finding)));
    }
    desk.key(Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier);
    QCOMPARE(desk.session->visitInFocus()->state, records::VisitState::Signed);
    for (const QString& asked : desk.answers.asked)
        QVERIFY2(!asked.contains(u"left blank"_s), qPrintable(asked));
}

void TestMainWindow::discardingNamesThePatientAndWhatWouldBeLost()
{
    AtWork desk;
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today, false);
    desk.answers.isConfirmed = false;
    desk.press(u"discardDraft"_s);
    const QString asked = base::withoutControls(desk.answers.asked.last(), base::Breaks::Allowed);
    QVERIFY2(asked.contains(u"HALDEN, Mirrit"_s) && asked.contains(u"No. L-0042"_s), qPrintable(asked));
    QVERIFY2(asked.contains(u"Toe tapping"_s) && asked.contains(u"right: clear (2)"_s), qPrintable(asked));
    QCOMPARE(desk.answers.risked, 1);
}

void TestMainWindow::findAndHandbookLeadBackToWhereOneWas()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today, false);
    const auto holder = [&] { return desk.window.focusWidget()->objectName(); };
    for (const QString& place : {u"nine-hole-peg.left.trial.2"_s, u"strip.note"_s}) {
        desk.widget<QWidget>(u"nine-hole-peg.left.trial.2"_s)->setFocus();
        desk.widget<QWidget>(place)->setFocus();
        desk.key(Qt::Key_K, Qt::ControlModifier);
        QCOMPARE(holder(), u"find"_s);
        QTest::keyClick(desk.widget<QLineEdit>(u"find"_s), Qt::Key_Escape);
        QCOMPARE(holder(), place);
        desk.key(Qt::Key_F1, Qt::ControlModifier);
        QVERIFY(desk.widget<QTextBrowser>(u"handbook"_s)->isVisible());
        desk.key(Qt::Key_Escape, Qt::NoModifier);
        QCOMPARE(holder(), place);
    }
}

void TestMainWindow::aQuestionTurnedBackFromLeadsToTheField()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.window.openPatient(desk.halden.id);
    desk.addVisit(clinic_desk::today, false);
    desk.answers.isConfirmed = false;
    for (const QString& button : {u"discardDraft"_s, u"signVisit"_s}) {
        desk.widget<QWidget>(u"nine-hole-peg.left.trial.2"_s)->setFocus();
        desk.widget<QPushButton>(button)->setFocus(Qt::MouseFocusReason);
        desk.widget<QPushButton>(button)->click();
        QCOMPARE(desk.window.focusWidget()->objectName(), u"nine-hole-peg.left.trial.2"_s);
    }
}

void TestMainWindow::theBarFitsANarrowWindow()
{
    AtWork desk;
    QVERIFY(desk.session->saveClinic({u"Movement and Balance Clinic of the Eastern Hills"_s, {}, {}, true}));
    desk.answers.atKeyboard->name = u"Maximiliana Hohenwaldenstein-Oppermannsberg"_s;
    desk.press(u"person"_s);
    QVERIFY(desk.isShown());
    const auto* bar = desk.widget<QPushButton>(u"person"_s)->parentWidget();
    QVERIFY2(bar->minimumSizeHint().width() <= 910, // 1366 pixels at 150 %
             qPrintable(QString::number(bar->minimumSizeHint().width())));
}

void TestMainWindow::aLongIdentityTakesASecondLine()
{
    AtWork desk;
    const auto patient = desk.add(u"Hohenwaldenstein-Oppermannsberg"_s, u"Maximiliana Wilhelmina Theodora"_s,
                                  QDate(1951, 3, 4), u"REGISTER-2026-000042"_s);
    desk.window.resize(1024, 700);
    QVERIFY(desk.isShown());
    desk.window.openPatient(patient.id);
    QCoreApplication::processEvents();
    const auto* identity = desk.widget<QLabel>(u"identity"_s);
    QVERIFY(identity->wordWrap());
    QVERIFY(identity->height() >= identity->heightForWidth(identity->width()));
    desk.window.openPatient(desk.halden.id);
    QVERIFY(!identity->wordWrap());
}

void TestMainWindow::aClickChoosesWhatWasFound()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    desk.key(Qt::Key_K, Qt::ControlModifier);
    QTest::keyClicks(desk.widget<QLineEdit>(u"find"_s), u"voss"_s);
    auto* results = desk.widget<QListWidget>(u"findResults"_s);
    QTest::mouseClick(results->viewport(), Qt::LeftButton, {},
                      results->visualItemRect(results->item(0)).center());
    QCOMPARE(desk.session->focus().patient, std::optional(desk.voss.id));
}

void TestMainWindow::theKeyboardFollowsToThePageAndTheRibbon()
{
    AtWork desk;
    QVERIFY(desk.isShown());
    const auto holder = [] {
        const QWidget* focus = QApplication::focusWidget();
        return focus == nullptr ? QString() : focus->objectName();
    };
    desk.key(Qt::Key_K, Qt::ControlModifier);
    QTest::keyClicks(desk.widget<QLineEdit>(u"find"_s), u"voss"_s);
    QTest::keyClick(desk.widget<QLineEdit>(u"find"_s), Qt::Key_Return);
    QCOMPARE(holder(), u"nextStep"_s);
    desk.key(Qt::Key_N, Qt::ControlModifier | Qt::ShiftModifier);
    QCOMPARE(holder(), u"finger-tapping.right.keys"_s);
    desk.key(Qt::Key_F6, Qt::NoModifier);
    QCOMPARE(holder(), u"visitRibbon"_s);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Escape);
    QCOMPARE(holder(), u"finger-tapping.right.keys"_s);
    desk.key(Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier);
    QCOMPARE(desk.session->visitInFocus()->state, records::VisitState::Signed);
}

HOUSE_TEST(TestMainWindow)

} // namespace test_main_window

#include "test_main_window.moc"
