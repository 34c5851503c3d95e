#include "app/caseload/caseload_page.h"

#include "app/caseload/case_files.h"
#include "app/caseload/saved_filters.h"
#include "core/records/patient.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/paces.h"
#include "tests/support/test_support.h"

#include <QAbstractItemModelTester>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableView>

using namespace Qt::StringLiterals;

namespace test_caseload_page
{

using caseload::CaseTable;
using clinic_desk::Desk;

/// Three invented people: one whose toes tap three steps worse, one as before, one with a draft alone.
struct Shown {
    Desk desk;
    caseload::CaseloadPage page{*desk.session, desk.answers};
    records::PatientId worse = seen(u"Vessary"_s, {{QDate(2025, 1, 6), 0}, {QDate(2025, 6, 2), 3}});
    records::PatientId same = seen(u"Ambrel"_s, {{QDate(2025, 1, 6), 1}, {QDate(2025, 6, 2), 1}});
    records::PatientId draft = seen(u"Quorne"_s, {});

    Shown()
    {
        desk.session->choosePatient(draft);
        desk.addVisit(QDate(2026, 3, 2), false);
        desk.session->leavePatient();
        page.resize(1280, 700);
        page.show();
        waitForWork();
    }

    records::PatientId seen(const QString& family, const std::vector<std::pair<QDate, int>>& visits)
    {
        const auto patient = desk.add(family, u"Ida"_s, QDate(1960, 5, 1), u"T-"_s + family);
        desk.session->choosePatient(patient.id);
        for (const auto& [day, grade] : visits)
            desk.addVisit(day, true, grade);
        return patient.id;
    }

    /// What is worked out beside the window has come.
    void waitForWork() { QTRY_COMPARE(find<QLabel>(u"caseProgress"_s).text(), QString()); }

    template <class Widget>
    Widget& find(const QString& name)
    {
        return *page.findChild<Widget*>(name);
    }
    QTableView& table() { return find<QTableView>(u"caseTable"_s); }
    CaseTable& model() { return *qobject_cast<CaseTable*>(table().model()); }
    QString cell(const records::PatientId& id, int column)
    {
        return model().index(model().rowOf(id), column).data().toString();
    }
};

class TestCaseloadPage : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theModelKeepsItsWord();
    void eachPatientIsOneRow();
    void theLinesOfThePatientInFocusStandBelow();
    void aGroupShowsItsOwnAlone();
    void whatIsTypedFindsAtEveryPace();
    void returnOpensAndTheNextFollows();
    void aSignedVisitIsSeenAtOnce();
    void untilSomeoneGoesOnTheFirstIsInFocus();
    void whoIsInFocusStaysSoWhenTheOrderChanges();
    void withoutNamesNobodyIsNamed();
    void whoIsDueIsSaid();
    void populationAndClinicianAreChosenFromTheKeyboard();
    void howLongAgoItBeganIsChosen();
    void aFilterIsKeptByName();
    void lettersAreAskedForThoseSelectedOrForAll();
    void theListIsWrittenAsItIsShown();
    void summariesStayBetweenStarts();
    void whatIsLeftToDoIsSaid();
    void anEmptyClinicSaysWhatWillBeHere();
};

void TestCaseloadPage::theModelKeepsItsWord()
{
    Shown shown;
    const QAbstractItemModelTester tester(&shown.model(),
                                          QAbstractItemModelTester::FailureReportingMode::QtTest);
    shown.find<QLineEdit>(u"findCase"_s).setText(u"v"_s);
    shown.find<QLineEdit>(u"findCase"_s).clear();
    QCOMPARE(shown.model().rowCount(), 3);
}

void TestCaseloadPage::eachPatientIsOneRow()
{
    Shown shown;
    QCOMPARE(shown.cell(shown.worse, CaseTable::Name), u"Vessary, Ida"_s);
    QCOMPARE(shown.cell(shown.worse, CaseTable::Strongest), u"worse by steps: Toe tapping, right"_s);
    QCOMPARE(shown.cell(shown.worse, CaseTable::LastVisit), u"02-Jun-2025"_s);
    QCOMPARE(shown.cell(shown.same, CaseTable::Strongest), u"as before"_s);
    QCOMPARE(shown.cell(shown.draft, CaseTable::LastVisit), u"draft 02-Mar-2026"_s);
    QCOMPARE(shown.cell(shown.draft, CaseTable::Strongest), u"first results"_s);
    QVERIFY(shown.model().rowOf(shown.worse) < shown.model().rowOf(shown.same));
    for (int column = 0; column < CaseTable::ColumnCount; ++column)
        QVERIFY(!shown.model().index(0, column).data(Qt::AccessibleTextRole).toString().isEmpty());
}

void TestCaseloadPage::theLinesOfThePatientInFocusStandBelow()
{
    Shown shown;
    shown.table().selectRow(shown.model().rowOf(shown.worse));
    QVERIFY(shown.find<QLabel>(u"caseWho"_s).text().startsWith(u"Vessary, Ida at 02-Jun-2025"_s));
    QCOMPARE(shown.find<QLabel>(u"summary.changed"_s).text(), u"Toe tapping, right: 0 → 3"_s);
    shown.table().selectRow(shown.model().rowOf(shown.same));
    QCOMPARE(shown.find<QLabel>(u"summary.nothing-new"_s).text(),
             u"Nothing beyond error in 1 result compared"_s);
}

void TestCaseloadPage::aGroupShowsItsOwnAlone()
{
    Shown shown;
    QVERIFY(!shown.find<QPushButton>(u"cases.worse"_s).isVisible()); // nobody beyond error
    auto& drafts = shown.find<QPushButton>(u"cases.drafts"_s);
    QCOMPARE(drafts.text(), u"D&rafts 1"_s);
    QTest::keyClick(&drafts, Qt::Key_Space);
    QCOMPARE(shown.model().rowCount(), 1);
    QCOMPARE(shown.model().rowOf(shown.draft), 0);
    QTest::keyClick(&shown.find<QPushButton>(u"cases.all"_s), Qt::Key_Space);
    QCOMPARE(shown.model().rowCount(), 3);
}

void TestCaseloadPage::whatIsTypedFindsAtEveryPace()
{
    paces::each([](Pace& pace) {
        Shown shown;
        auto& find = shown.find<QLineEdit>(u"findCase"_s);
        pace.key(&shown.table(), Qt::Key_A);
        pace.type(&find, u"mbr"_s);
        QCOMPARE(find.text(), u"ambr"_s);
        QCOMPARE(shown.model().rowCount(), 1);
        pace.key(&find, Qt::Key_Escape);
        QCOMPARE(shown.model().rowCount(), 3);
    });
}

void TestCaseloadPage::returnOpensAndTheNextFollows()
{
    Shown shown;
    const QSignalSpy opened(&shown.page, &caseload::CaseloadPage::opened);
    shown.table().selectRow(0);
    QTest::keyClick(&shown.table(), Qt::Key_Return);
    QCOMPARE(opened.size(), 1);
    const auto first = shown.model().entry(0).of.patient;
    QCOMPARE(opened.front().front().value<records::PatientId>(), first);
    QCOMPARE(shown.page.neighbour(first, 1), std::optional(shown.model().entry(1).of.patient));
    QVERIFY(!shown.page.neighbour(first, -1));
    QVERIFY(!shown.page.neighbour(records::PatientId::make(), 1));
}

void TestCaseloadPage::aSignedVisitIsSeenAtOnce()
{
    Shown shown;
    shown.desk.session->choosePatient(shown.same);
    shown.desk.addVisit(QDate(2026, 3, 10), true, 4);
    QTRY_COMPARE(shown.cell(shown.same, CaseTable::Strongest), u"worse by steps: Toe tapping, right"_s);
    QCOMPARE(shown.cell(shown.same, CaseTable::LastVisit), u"10-Mar-2026"_s);
}

/// Also where the order came once all was worked out.
void TestCaseloadPage::untilSomeoneGoesOnTheFirstIsInFocus()
{
    Shown shown;
    QCOMPARE(shown.model().rowOf(shown.worse), 0);
    QCOMPARE(shown.table().currentIndex().row(), 0);
    QVERIFY(shown.find<QLabel>(u"caseWho"_s).text().startsWith(u"Vessary, Ida at "_s));
    const auto second = shown.model().entry(1).of.patient;
    QTest::keyClick(&shown.table(), Qt::Key_Down);
    shown.find<QLineEdit>(u"findCase"_s).setText(u"vess"_s);
    QCOMPARE(shown.table().currentIndex().row(), 0);
    shown.find<QLineEdit>(u"findCase"_s).clear();
    QCOMPARE(shown.model().entry(shown.table().currentIndex().row()).of.patient, second);
}

void TestCaseloadPage::whoIsInFocusStaysSoWhenTheOrderChanges()
{
    Shown shown;
    QTest::mouseClick(
        shown.table().viewport(), Qt::LeftButton, {},
        shown.table().visualRect(shown.model().index(shown.model().rowOf(shown.worse), 0)).center());
    const int before = shown.model().rowOf(shown.worse);
    shown.desk.session->choosePatient(shown.same);
    shown.desk.addVisit(QDate(2026, 3, 10), true, 4); // now comes before
    QTRY_VERIFY(shown.model().rowOf(shown.worse) != before);
    QCOMPARE(shown.table().currentIndex().row(), shown.model().rowOf(shown.worse));
    QVERIFY(shown.find<QLabel>(u"caseWho"_s).text().startsWith(u"Vessary, Ida at "_s));
}

void TestCaseloadPage::withoutNamesNobodyIsNamed()
{
    Shown shown;
    QTest::keyClick(&shown.find<QCheckBox>(u"withoutNames"_s), Qt::Key_Space);
    QCOMPARE(shown.cell(shown.worse, CaseTable::Name), QString());
    shown.table().selectRow(shown.model().rowOf(shown.worse));
    QVERIFY(shown.find<QLabel>(u"caseWho"_s).text().startsWith(u"T-Vessary at "_s));
    QVERIFY(!caseload::csvOf(shown.model()).contains("Ida"));
}

void TestCaseloadPage::whoIsDueIsSaid()
{
    Shown shown;
    QVERIFY(!shown.find<QPushButton>(u"cases.due"_s).isVisible());
    records::Clinic clinic = shown.desk.session->clinic();
    clinic.reviews = {{records::ReviewInterval::Of::Population, u"stroke-chronic"_s, 40}};
    QVERIFY(shown.desk.session->saveClinic(clinic));
    QTRY_COMPARE(shown.cell(shown.worse, CaseTable::Due), u"overdue, 3 days"_s); // 02-Jun-2025 and 40 weeks
    shown.waitForWork();
    QCOMPARE(shown.cell(shown.draft, CaseTable::Due), QString());
    QCOMPARE(shown.find<QPushButton>(u"cases.due"_s).text(), u"&Due 2"_s);
}

/// Two after a stroke, and one with another disease for whom another clinician signed.
void TestCaseloadPage::populationAndClinicianAreChosenFromTheKeyboard()
{
    Shown shown;
    session::Session& session = *shown.desk.session;
    session.choosePatient(shown.same);
    records::Patient patient = session.patientInFocus();
    patient.population = u"parkinson"_s;
    QVERIFY(session.savePatient(patient));
    shown.desk.answers.signer = records::Author{u"B. Other"_s, u"neurologist"_s, {}};
    shown.desk.addVisit(QDate(2026, 3, 3), true, 1);
    auto& populations = shown.find<QComboBox>(u"populations"_s);
    auto& clinicians = shown.find<QComboBox>(u"clinicians"_s);
    QTRY_VERIFY(populations.findData(u"parkinson"_s) > 0);
    shown.waitForWork();
    QVERIFY(populations.findData(u"multiple-sclerosis"_s) < 0); // nobody
    paces::each([&](Pace& pace) {
        pace.key(&populations, Qt::Key_Down);
        QCOMPARE(populations.currentData().toString(), u"stroke"_s); // with the narrower ones
        QCOMPARE(shown.model().rowCount(), 2);
        QCOMPARE(shown.find<QLabel>(u"caseCount"_s).text(), u"2 of 3 patients"_s);
        QCOMPARE(shown.find<QPushButton>(u"cases.all"_s).text(), u"&All 2"_s);
        pace.key(&populations, Qt::Key_Home);
        QCOMPARE(shown.model().rowCount(), 3);
    });
    QTest::keyClick(&clinicians, Qt::Key_End);
    QCOMPARE(clinicians.currentText(), u"B. Other"_s);
    QCOMPARE(shown.model().rowCount(), 1);
    QCOMPARE(shown.model().rowOf(shown.same), 0);
    const caseload::Filter filter{caseload::Group::Due, u"a"_s, u"stroke"_s, u"B. Other"_s, u"week"_s};
    caseload::keepFilter({u"Mine"_s, filter});
    QCOMPARE(caseload::savedFilters().front().filter, filter);
    caseload::forgetFilter(u"Mine"_s);
}

/// Three stages of recovery, and one whose onset nobody wrote down.
void TestCaseloadPage::howLongAgoItBeganIsChosen()
{
    Shown shown;
    session::Session& session = *shown.desk.session;
    const auto began = [&](const records::PatientId& id, QDate onset) {
        session.choosePatient(id);
        records::Patient patient = session.patientInFocus();
        patient.onset = onset;
        QVERIFY(session.savePatient(patient));
    };
    began(shown.worse, session.today().addDays(-7));
    began(shown.same, session.today().addDays(-8));
    shown.waitForWork();
    auto& times = shown.find<QComboBox>(u"sinceOnset"_s);
    const auto only = [&](const QString& code) {
        times.setCurrentIndex(times.findData(code));
        Q_EMIT times.activated(times.currentIndex());
        return shown.model().rowCount() == 1 ? shown.model().entry(0).of.patient : records::PatientId();
    };
    QTRY_COMPARE(only(u"week"_s), shown.worse);
    QTRY_COMPARE(only(u"quarter"_s), shown.same);
    QCOMPARE(only(caseload::notRecorded), shown.draft);
    QCOMPARE(shown.find<QPushButton>(u"cases.all"_s).text(), u"&All 1"_s);
    only(u"longer"_s);
    QCOMPARE(shown.model().rowCount(), 0);
    paces::each([&](Pace& pace) {
        pace.key(&times, Qt::Key_Home);
        QCOMPARE(shown.model().rowCount(), 3);
        pace.key(&times, Qt::Key_Down);
        QCOMPARE(shown.model().rowCount(), 1);
    });
}

void TestCaseloadPage::aFilterIsKeptByName()
{
    Shown shown;
    auto& saved = shown.find<QComboBox>(u"savedFilters"_s);
    shown.find<QLineEdit>(u"findCase"_s).setText(u"quor"_s);
    shown.desk.answers.text = u"Mine"_s;
    saved.setCurrentIndex(saved.findText(u"Save this filter…"_s));
    Q_EMIT saved.activated(saved.currentIndex());
    QCOMPARE(caseload::savedFilters().size(), size_t(1));
    QCOMPARE(caseload::savedFilters().front().filter,
             (caseload::Filter{caseload::Group::All, u"quor"_s, {}, {}, {}}));
    shown.find<QLineEdit>(u"findCase"_s).clear();
    QCOMPARE(shown.model().rowCount(), 3);
    saved.setCurrentIndex(saved.findText(u"Mine"_s));
    Q_EMIT saved.activated(saved.currentIndex());
    QCOMPARE(shown.model().rowCount(), 1);
    QCOMPARE(shown.find<QLineEdit>(u"findCase"_s).text(), u"quor"_s);
    caseload::forgetFilter(u"Mine"_s);
    QVERIFY(caseload::savedFilters().empty());
}

void TestCaseloadPage::theListIsWrittenAsItIsShown()
{
    Shown shown;
    const QByteArray file = caseload::csvOf(shown.model());
    const QList<QByteArray> lines = file.split('\n');
    QVERIFY2(lines.front().startsWith("No.,Name,Population,Clinician,Last visit,Due,Strongest change,Flags"),
             lines.front().constData());
    QVERIFY(file.contains("T-Vessary,\"Vessary, Ida\","));
    shown.desk.add(u"=1+1"_s, u"Ida"_s, QDate(1960, 5, 1), u"@T"_s);
    QTRY_VERIFY(caseload::csvOf(shown.model()).contains("'@T,\"'=1+1, Ida\","));
}

/// Another start finds what was worked out; nothing is worked out again.
void TestCaseloadPage::summariesStayBetweenStarts()
{
    Shown shown;
    const auto again = shown.desk.openAgain();
    const auto cases = again->cases();
    QVERIFY(cases);
    QCOMPARE(
        std::ranges::count_if(*cases, [](const judging::Case& each) { return each.summary.has_value(); }), 3);
}

/// With so many people that a machine of any speed tells them in more than one go.
void TestCaseloadPage::whatIsLeftToDoIsSaid()
{
    bool isSaid = false;
    for (int people = 25; people <= 800 && !isSaid; people *= 2) {
        Desk desk;
        for (int number = 0; number < people; ++number) {
            const QString name = QString::number(number);
            desk.session->choosePatient(desk.add(name, u"Ida"_s, QDate(1960, 5, 1), u"T-"_s + name).id);
            desk.addVisit(QDate(2025, 1, 6), true, 0);
            desk.addVisit(QDate(2025, 6, 2), true, 1);
        }
        desk.session->leavePatient();
        caseload::CaseloadPage page(*desk.session, desk.answers);
        page.show();
        const auto& progress = *page.findChild<QLabel*>(u"caseProgress"_s);
        while (!progress.text().isEmpty()) {
            QCoreApplication::processEvents(QEventLoop::AllEvents, 1);
            isSaid = isSaid ||
                     (progress.text().startsWith(u"Working out "_s) && progress.text().endsWith(u" left"_s));
        }
    }
    QVERIFY(isSaid);
}

void TestCaseloadPage::anEmptyClinicSaysWhatWillBeHere()
{
    Desk desk;
    caseload::CaseloadPage page(*desk.session, desk.answers);
    page.show();
    QVERIFY(!page.findChild<QTableView*>(u"caseTable"_s)->isVisible());
}

/// Those selected with Shift, else all that are shown.
void TestCaseloadPage::lettersAreAskedForThoseSelectedOrForAll()
{
    Shown shown;
    QSignalSpy asked(&shown.page, &caseload::CaseloadPage::lettersAsked);
    auto& letters = shown.find<QPushButton>(u"caseLetters"_s);
    auto& table = shown.find<QTableView>(u"caseTable"_s);
    QTest::keyClick(&letters, Qt::Key_Space);
    using Patients = std::vector<records::PatientId>;
    QCOMPARE(asked.last().at(0).value<Patients>(), Patients());
    QCOMPARE(asked.last().at(1).value<Patients>().size(), size_t(3));
    table.setFocus();
    QTest::keyClick(&table, Qt::Key_Down, Qt::ShiftModifier);
    QTest::keyClick(&letters, Qt::Key_Space);
    QCOMPARE(asked.last().at(0).value<Patients>().size(), size_t(2));
    shown.find<QLineEdit>(u"findCase"_s).setText(u"Ambrel"_s);
    QTest::keyClick(&letters, Qt::Key_Space);
    QCOMPARE(asked.last().at(1).value<Patients>(), Patients{shown.same});
    shown.find<QLineEdit>(u"findCase"_s).setText(u"nobody"_s);
    QVERIFY(!letters.isEnabled());
}

HOUSE_TEST(TestCaseloadPage)

} // namespace test_caseload_page

#include "test_caseload_page.moc"
