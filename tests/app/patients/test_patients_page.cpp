#include "app/patients/patients_page.h"

#include "app/patients/patient_form.h"
#include "app/patients/patient_table.h"
#include "app/widgets/notice.h"
#include "core/storage/patients.h"
#include "core/storage/store.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableView>

using namespace Qt::StringLiterals;

namespace test_patients_page
{

using clinic_desk::Desk;
using patients::PatientsPage;

template <class Widget>
Widget* widget(const QWidget& page, const QString& name)
{
    return page.findChild<Widget*>(name);
}

void type(const QWidget& page, const QString& field, const QString& text)
{
    auto* line = widget<QLineEdit>(page, field);
    line->selectAll();
    QTest::keyClicks(line, text);
}

/// Keys of a window reach it once it is active.
bool isShown(QWidget& page)
{
    page.show();
    return QTest::qWaitForWindowActive(&page);
}

QString notice(const QWidget& page)
{
    QStringList words;
    for (const auto* each : page.findChildren<widgets::Notice*>())
        words += each->words();
    return words.join(u' ');
}

class TestPatientsPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void savedDetailsAreTakenBackAndMadeAgain();
    void whatAnotherHandChangedIsNotTakenBack();
    void theListIsCopied();
    void anEmptyClinicOffersTheFirstPatient();
    void typingFindsAndEnterOpens();
    void nobodyFoundOffersEveryone();
    void aNewPatientIsMadeFromTheKeyboard();
    void aFaultStandsBesideItsFieldAndNothingIsLost();
    void aLookAlikeIsShownAndAskedAbout();
    void anotherPersonMayStillBeMade();
    void editingAsksForNoLookAlike();
    void aTakenRecordNumberKeepsWhatWasTyped();
    void savingOverAnotherProgramTellsAndKeepsBoth();
    void leavingAFormAsksWhenSomethingWasTyped();
    void aSecondEntryWaitsForTheFirst();
    void whatIsHalfTypedIsThereAtTheNextStart();
    void aChangeOfAKnownPatientIsTakenUpToo();
};

void TestPatientsPage::savedDetailsAreTakenBackAndMadeAgain()
{
    Desk desk;
    records::Patient halden = desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4));
    PatientsPage page(*desk.session, desk.answers, nullptr);
    QVERIFY(isShown(page));
    auto* undo = widget<QPushButton>(page, u"undoDetails"_s);
    QVERIFY(!undo->isVisible()); // a new patient is not taken back
    page.edit(halden.id);
    type(page, u"diagnosis"_s, u"ataxia"_s);
    QTest::keyClick(widget<QPushButton>(page, u"savePatient"_s), Qt::Key_Space);
    QCOMPARE(desk.session->patient(halden.id)->diagnosis, u"ataxia"_s);
    QVERIFY(undo->isVisible());
    QVERIFY2(undo->text().contains(u": diagnosis”"_s), qPrintable(undo->text()));
    QTest::keyClick(undo, Qt::Key_Space);
    QCOMPARE(desk.session->patient(halden.id)->diagnosis, QString());
    QTest::keyClick(widget<QPushButton>(page, u"redoDetails"_s), Qt::Key_Space);
    QCOMPARE(desk.session->patient(halden.id)->diagnosis, u"ataxia"_s);
}

void TestPatientsPage::whatAnotherHandChangedIsNotTakenBack()
{
    Desk desk;
    records::Patient halden = desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4));
    halden.diagnosis = u"ataxia"_s;
    QVERIFY(desk.session->savePatient(halden));
    records::Patient theirs = *desk.session->patient(halden.id);
    theirs.weightKg = 64;
    QVERIFY(storage::Patients(desk.session->store()).save(theirs)); // behind the session's back
    const auto undone = desk.session->undo();
    QVERIFY(!undone);
    QCOMPARE(undone.error().kind, base::ErrorKind::Conflict);
    QCOMPARE(desk.session->patient(halden.id)->weightKg, std::optional(64.0));
    QCOMPARE(desk.session->patient(halden.id)->diagnosis, u"ataxia"_s);
}

void TestPatientsPage::theListIsCopied()
{
    Desk desk;
    desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4), u"L-0042"_s);
    PatientsPage page(*desk.session, desk.answers, nullptr);
    QVERIFY(isShown(page));
    QTest::keyClick(widget<QTableView>(page, u"patientTable"_s), Qt::Key_C, Qt::ControlModifier);
    const QStringList lines = QApplication::clipboard()->text().split(u'\n');
    QVERIFY2(lines[1].startsWith(u"Halden\tMirrit\t"_s) && lines[1].contains(u"\tL-0042\t"_s),
             qPrintable(lines[1]));
}

void TestPatientsPage::anEmptyClinicOffersTheFirstPatient()
{
    Desk desk;
    PatientsPage page(*desk.session, desk.answers, nullptr);
    QVERIFY(isShown(page));
    QVERIFY(!widget<QTableView>(page, u"patientTable"_s)->isVisible());
    auto* step = widget<QPushButton>(page, u"nextStep"_s);
    QCOMPARE(step->text(), u"New patient"_s);
    QTest::keyClick(step, Qt::Key_Space);
    QVERIFY(widget<QLineEdit>(page, u"family"_s)->isVisible());
}

void TestPatientsPage::typingFindsAndEnterOpens()
{
    Desk desk;
    const auto halden = desk.add(u"Hålden"_s, u"Mirrit"_s, QDate(1951, 3, 4));
    desk.add(u"Voss"_s, u"Osric"_s, QDate(1980, 1, 2));
    PatientsPage page(*desk.session, desk.answers, nullptr);
    QVERIFY(isShown(page));
    QSignalSpy opened(&page, &PatientsPage::opened);
    type(page, u"patientSearch"_s, u"hald"_s);
    QCOMPARE(widget<QTableView>(page, u"patientTable"_s)->model()->rowCount(), 1);
    QCOMPARE(widget<QLabel>(page, u"patientCount"_s)->text(), u"1 of 2"_s);
    QTest::keyClick(widget<QLineEdit>(page, u"patientSearch"_s), Qt::Key_Return);
    QCOMPARE(opened.count(), 1);
    QCOMPARE(opened.first().first().value<records::PatientId>(), halden.id);
}

void TestPatientsPage::nobodyFoundOffersEveryone()
{
    Desk desk;
    desk.add(u"Voss"_s, u"Osric"_s, QDate(1980, 1, 2));
    PatientsPage page(*desk.session, desk.answers, nullptr);
    QVERIFY(isShown(page));
    type(page, u"patientSearch"_s, u"xyz"_s);
    QVERIFY(!widget<QTableView>(page, u"patientTable"_s)->isVisible());
    QTest::keyClick(widget<QPushButton>(page, u"nextStep"_s), Qt::Key_Space);
    QVERIFY(widget<QTableView>(page, u"patientTable"_s)->isVisible());
}

void TestPatientsPage::aNewPatientIsMadeFromTheKeyboard()
{
    Desk desk;
    PatientsPage page(*desk.session, desk.answers, nullptr);
    QVERIFY(isShown(page));
    QSignalSpy opened(&page, &PatientsPage::opened);
    QTest::keyClick(&page, Qt::Key_N, Qt::ControlModifier);
    type(page, u"recordNumber"_s, u"L-0042"_s);
    type(page, u"family"_s, u"Halden"_s);
    type(page, u"given"_s, u"Mirrit"_s);
    type(page, u"born"_s, u"04-Mar-1951"_s);
    QTest::keyClicks(widget<QComboBox>(page, u"sex"_s), u"f"_s);
    type(page, u"height"_s, u"167,5"_s);
    type(page, u"diagnosis"_s, u"stroke"_s);
    auto* population = widget<QComboBox>(page, u"population"_s);
    population->setCurrentIndex(population->findData(u"stroke-chronic"_s));
    QTest::keyClicks(widget<QPlainTextEdit>(page, u"notes"_s), u"prefers mornings"_s);
    QTest::keyClick(widget<QLineEdit>(page, u"family"_s), Qt::Key_S, Qt::ControlModifier);
    QCOMPARE(opened.count(), 1);

    const auto stored = desk.session->patient(opened.first().first().value<records::PatientId>());
    QVERIFY(stored);
    QCOMPARE(stored->recordNumber, u"L-0042"_s);
    QCOMPARE(stored->family, u"Halden"_s);
    QCOMPARE(stored->born, std::optional(QDate(1951, 3, 4)));
    QCOMPARE(stored->sex, records::Sex::Female);
    QCOMPARE(stored->heightCm, std::optional(167.5));
    QCOMPARE(stored->population, u"stroke-chronic"_s);
    QCOMPARE(stored->notes, u"prefers mornings"_s);
    QVERIFY(desk.answers.asked.isEmpty());
}

void TestPatientsPage::aFaultStandsBesideItsFieldAndNothingIsLost()
{
    Desk desk;
    PatientsPage page(*desk.session, desk.answers, nullptr);
    QVERIFY(isShown(page));
    page.newPatient();
    type(page, u"family"_s, u"Halden"_s);
    type(page, u"born"_s, u"4.3.1951"_s);
    QTest::keyClick(widget<QPushButton>(page, u"savePatient"_s), Qt::Key_Space);
    QVERIFY(widget<QLabel>(page, u"bornBelow"_s)->text().contains(u"1951-03-04"_s));
    QVERIFY(notice(page).contains(u"Not saved yet"_s));
    QCOMPARE(widget<QLineEdit>(page, u"family"_s)->text(), u"Halden"_s);
    QVERIFY(desk.session->patients()->empty());

    type(page, u"born"_s, u"1951-03-04"_s);
    QVERIFY(widget<QLabel>(page, u"bornBelow"_s)->text().isEmpty());
}

void TestPatientsPage::aLookAlikeIsShownAndAskedAbout()
{
    Desk desk;
    const auto halden = desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4), u"L-0042"_s);
    desk.answers.isConfirmed = false;
    PatientsPage page(*desk.session, desk.answers, nullptr);
    QVERIFY(isShown(page));
    page.newPatient();
    type(page, u"family"_s, u"Haldern"_s);
    type(page, u"given"_s, u"Mirit"_s);
    QTest::keyClick(widget<QPushButton>(page, u"savePatient"_s), Qt::Key_Space);
    QCOMPARE(desk.answers.asked.size(), 1);
    QVERIFY(desk.answers.asked.first().contains(
        u"\u2068HALDEN\u2069, \u2068Mirrit\u2069 · born 04-Mar-1951 · No. \u2068L-0042\u2069"_s));
    QCOMPARE(desk.session->patients()->size(), size_t(1));
    QCOMPARE(widget<QLineEdit>(page, u"given"_s)->text(), u"Mirit"_s);

    QSignalSpy opened(&page, &PatientsPage::opened);
    QPushButton* other = nullptr;
    for (auto* button : page.findChildren<QPushButton*>())
        other = button->text().contains(u"HALDEN"_s) ? button : other;
    QVERIFY(other != nullptr);
    QTest::keyClick(other, Qt::Key_Space);
    QCOMPARE(opened.first().first().value<records::PatientId>(), halden.id);
}

void TestPatientsPage::anotherPersonMayStillBeMade()
{
    Desk desk;
    desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4));
    PatientsPage page(*desk.session, desk.answers, nullptr);
    page.newPatient();
    type(page, u"family"_s, u"Voss"_s);
    type(page, u"born"_s, u"1951-03-04"_s);
    QTest::keyClick(widget<QPushButton>(page, u"savePatient"_s), Qt::Key_Space);
    QVERIFY(desk.answers.asked.first().contains(u"same birth date"_s));
    QCOMPARE(desk.session->patients()->size(), size_t(2));
}

void TestPatientsPage::editingAsksForNoLookAlike()
{
    Desk desk;
    const auto halden = desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4));
    desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4));
    PatientsPage page(*desk.session, desk.answers, nullptr);
    QSignalSpy ended(&page, &PatientsPage::editEnded);
    page.edit(halden.id);
    type(page, u"weight"_s, u"61"_s);
    QTest::keyClick(widget<QPushButton>(page, u"savePatient"_s), Qt::Key_Space);
    QVERIFY(desk.answers.asked.isEmpty());
    QCOMPARE(ended.count(), 1);
    QCOMPARE(desk.session->patient(halden.id)->weightKg, std::optional(61.0));
}

void TestPatientsPage::aTakenRecordNumberKeepsWhatWasTyped()
{
    Desk desk;
    desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4), u"L-0042"_s);
    PatientsPage page(*desk.session, desk.answers, nullptr);
    page.newPatient();
    type(page, u"family"_s, u"Voss"_s);
    type(page, u"recordNumber"_s, u"L-0042"_s);
    QTest::keyClick(widget<QPushButton>(page, u"savePatient"_s), Qt::Key_Space);
    QCOMPARE(desk.answers.told.size(), 1);
    QCOMPARE(widget<QLineEdit>(page, u"family"_s)->text(), u"Voss"_s);
    QVERIFY(page.hasUnsavedEntry());
}

void TestPatientsPage::savingOverAnotherProgramTellsAndKeepsBoth()
{
    Desk desk;
    const auto halden = desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4));
    PatientsPage page(*desk.session, desk.answers, nullptr);
    page.edit(halden.id);
    type(page, u"diagnosis"_s, u"ataxia"_s);

    records::Patient theirs = *desk.session->patient(halden.id);
    theirs.weightKg = 64;
    theirs.diagnosis = u"stroke"_s;
    QVERIFY(storage::Patients(desk.session->store()).save(theirs)); // behind the page's back

    auto* save = widget<QPushButton>(page, u"savePatient"_s);
    QTest::keyClick(save, Qt::Key_Space);
    QVERIFY(notice(page).contains(u"Another program saved this patient meanwhile"_s));
    QCOMPARE(widget<QLineEdit>(page, u"diagnosis"_s)->text(), u"ataxia"_s);
    QVERIFY(widget<QLabel>(page, u"diagnosisBelow"_s)->text().contains(u"stroke"_s));
    QTest::keyClick(save, Qt::Key_Space);
    const auto stored = desk.session->patient(halden.id);
    QCOMPARE(stored->diagnosis, u"ataxia"_s);
    QCOMPARE(stored->weightKg, std::optional(64.0));
}

void TestPatientsPage::leavingAFormAsksWhenSomethingWasTyped()
{
    Desk desk;
    PatientsPage page(*desk.session, desk.answers, nullptr);
    QVERIFY(isShown(page));
    page.newPatient();
    QTest::keyClick(widget<QLineEdit>(page, u"family"_s), Qt::Key_Escape);
    QVERIFY(desk.answers.asked.isEmpty());
    page.newPatient();
    type(page, u"family"_s, u"Voss"_s);
    desk.answers.isConfirmed = false;
    QTest::keyClick(widget<QLineEdit>(page, u"family"_s), Qt::Key_Escape);
    QCOMPARE(desk.answers.asked.size(), 1);
    QCOMPARE(widget<QLineEdit>(page, u"family"_s)->text(), u"Voss"_s);
    page.showList();
    QVERIFY(widget<QLineEdit>(page, u"family"_s)->isVisible());
}

void TestPatientsPage::aSecondEntryWaitsForTheFirst()
{
    Desk desk;
    const auto halden = desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4));
    PatientsPage page(*desk.session, desk.answers, nullptr);
    page.newPatient();
    type(page, u"family"_s, u"Voss"_s);
    page.edit(halden.id);
    QCOMPARE(widget<QLineEdit>(page, u"family"_s)->text(), u"Voss"_s);
    QVERIFY(notice(page).contains(u"first"_s));
}

void TestPatientsPage::whatIsHalfTypedIsThereAtTheNextStart()
{
    Desk desk;
    {
        PatientsPage page(*desk.session, desk.answers, nullptr);
        page.newPatient();
        QVERIFY(isShown(page));
        type(page, u"family"_s, u"Plover"_s);
        type(page, u"born"_s, u"1958-0"_s);
    } // as a program that ends without a question
    PatientsPage page(*desk.session, desk.answers, nullptr);
    page.takeUpEntry();
    QVERIFY(isShown(page));
    QVERIFY(page.hasUnsavedEntry());
    QCOMPARE(widget<QLineEdit>(page, u"family"_s)->text(), u"Plover"_s);
    QCOMPARE(widget<QLineEdit>(page, u"born"_s)->text(), u"1958-0"_s);
    QVERIFY2(notice(page).contains(u"ended before this entry was saved"_s), qPrintable(notice(page)));
    type(page, u"born"_s, u"1958-07-09"_s);
    widget<QPushButton>(page, u"savePatient"_s)->click();
    QCOMPARE(desk.session->patients()->size(), size_t(1));
    PatientsPage next(*desk.session, desk.answers, nullptr);
    next.takeUpEntry();
    QVERIFY(!next.hasUnsavedEntry());
}

void TestPatientsPage::aChangeOfAKnownPatientIsTakenUpToo()
{
    Desk desk;
    records::Patient voss = desk.add(u"Voss"_s, u"Osric"_s, QDate(1980, 1, 2), u"L-7"_s);
    {
        PatientsPage page(*desk.session, desk.answers, nullptr);
        page.edit(voss.id);
        QVERIFY(isShown(page));
        type(page, u"diagnosis"_s, u"Stroke"_s);
    }
    voss.given = u"Osrik"_s;
    QVERIFY(desk.session->savePatient(voss));
    PatientsPage page(*desk.session, desk.answers, nullptr);
    page.takeUpEntry();
    QCOMPARE(widget<QLineEdit>(page, u"given"_s)->text(), u"Osrik"_s);
    QCOMPARE(widget<QLineEdit>(page, u"diagnosis"_s)->text(), u"Stroke"_s);
    widget<QPushButton>(page, u"cancelPatient"_s)->click();
    PatientsPage next(*desk.session, desk.answers, nullptr);
    next.takeUpEntry();
    QVERIFY(!next.hasUnsavedEntry());
    QCOMPARE(desk.session->patient(voss.id)->diagnosis, QString());
}

HOUSE_TEST(TestPatientsPage)

} // namespace test_patients_page

#include "test_patients_page.moc"
