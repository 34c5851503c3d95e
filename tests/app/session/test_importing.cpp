#include "app/session/importing.h"
#include "app/session/taking_back.h"
#include "core/records/summary.h"
#include "core/storage/patients.h"
#include "core/storage/visits.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/findings_file.h"
#include "tests/support/test_support.h"

#include <QRandomGenerator>
#include <QSignalSpy>

#include <algorithm>
#include <map>

using namespace Qt::StringLiterals;

namespace test_importing
{

using clinic_desk::Desk;
using findings_file::Cells;
using findings_file::walk;

const Cells berg = {{u"measure"_s, u"berg-balance"_s}, {u"value"_s, u"46"_s}};
const Cells later = {{u"date"_s, u"2024-04-01"_s}};

/// What counts in the records: by record number who the patient is and what was found on which day. Not by
/// whom and in how many versions.
struct Held {
    std::map<QString, records::Patient> patients;
    std::map<std::pair<QString, QDate>, std::vector<records::Finding>> findings;

    bool operator==(const Held&) const = default;
};

struct ImportDesk : Desk {
    exchange::FindingsFile read(const std::vector<Cells>& rows) const
    {
        auto file = exchange::findingsFrom(findings_file::file(rows), session->catalogue(), session->today());
        return file ? std::move(*file) : exchange::FindingsFile();
    }

    exchange::Preview preview(const std::vector<Cells>& rows) const
    {
        const auto plan = session::plannedImport(*session, read(rows));
        return plan ? plan->preview : exchange::Preview();
    }

    base::Result<session::ImportSummary> import(const std::vector<Cells>& rows,
                                                const records::Progress& progress = {}) const
    {
        return session::importPatients(*session, read(rows).patients,
                                       session::importingAuthor(u"A. Tester"_s), u"march.csv"_s, progress);
    }

    base::Result<session::TakenBack> takeBack(const records::Progress& progress = {}) const
    {
        return session::takeBackImport(*session, *answers.signer, progress);
    }

    records::PatientId idOf(const QString& number) const
    {
        return (**storage::Patients(session->store()).withRecordNumber(number)).id;
    }

    std::vector<records::Visit> versionsOf(const QString& number) const
    {
        return *storage::Visits(session->store()).ofPatient(idOf(number));
    }

    Held held() const
    {
        Held held;
        const auto summaries = *session->patients();
        for (const records::PatientSummary& summary : summaries) {
            records::Patient patient = *session->patient(summary.id);
            const QString number = patient.recordNumber;
            for (const records::Visit& visit : records::current(versionsOf(number), true)) {
                auto& findings = held.findings[{number, visit.day}];
                findings.insert(findings.end(), visit.findings.begin(), visit.findings.end());
                std::ranges::sort(findings, {}, [](const records::Finding& finding) {
                    return std::pair(finding.measure, finding.side);
                });
                patient.revision = 0;
                held.patients[number] = patient;
            }
        }
        return held;
    }

    size_t versions() const
    {
        size_t all = 0;
        const auto summaries = *session->patients();
        for (const records::PatientSummary& summary : summaries)
            all += storage::Visits(session->store()).ofPatient(summary.id)->size();
        return all;
    }
};

/// Rows as files have them: several patients and days, further trials, states, gaps and faults.
std::vector<Cells> someRows(QRandomGenerator& random, bool mayBeWrong)
{
    std::vector<Cells> rows;
    // Allowed, but not what the records may hold.
    const QString walked = mayBeWrong && random.bounded(3) == 0 ? u"14"_s : u"12.5"_s;
    for (int i = random.bounded(1, 12); i > 0; --i) {
        Cells row = walk({{u"patient"_s, u"T-%1"_s.arg(random.bounded(4))},
                          {u"date"_s, u"2024-0%1-01"_s.arg(random.bounded(3, 6))}});
        switch (random.bounded(4)) {
        case 0:
            row[u"measure"_s] = u"berg-balance"_s;
            row[u"value"_s] = u"46"_s;
            break;
        case 1:
            row[u"measure"_s] = u"tandem-steps"_s;
            row[u"value"_s].clear();
            row[u"state"_s] = u"unable"_s;
            break;
        default:
            row[u"trial"_s] = QString::number(random.bounded(1, 3));
            row[u"value"_s] = row[u"trial"_s] == u"1" ? walked : u"11.5"_s;
        }
        if (random.bounded(3) == 0)
            row[u"born"_s].clear();
        if (row[u"trial"_s] == u"2") {
            Cells first = row;
            first[u"trial"_s] = u"1"_s;
            first[u"value"_s] = walked;
            rows.push_back(first);
        }
        if (mayBeWrong && random.bounded(20) == 0)
            row[u"value"_s] = random.bounded(2) == 0 ? u"much"_s : u"13"_s;
        rows.push_back(row);
    }
    return rows;
}

class TestImporting : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// Generated files over generated records: what the preview says is what the import does, and taken back
    /// the records say what they said before.
    void whatThePreviewSaysIsWhatTheImportDoes()
    {
        int taken = 0, changed = 0, refused = 0;
        for (quint32 seed = 0; seed < 60; ++seed) {
            QRandomGenerator random(seed);
            ImportDesk desk;
            if (const auto begun = desk.import(someRows(random, false)); begun && random.bounded(2) == 0)
                amendOne(desk);
            const Held before = desk.held();
            const size_t versions = desk.versions();
            const qsizetype patients = qsizetype(desk.session->patients()->size());
            const std::vector<Cells> rows = someRows(random, true);

            const exchange::FindingsFile file = desk.read(rows);
            const auto plan = session::plannedImport(*desk.session, file);
            QVERIFY(plan);
            const exchange::Preview& said = plan->preview;
            QCOMPARE(desk.held(), before);
            const auto done = desk.import(rows);
            if (!file.faults.isNone())
                continue; // such a file never gets as far
            const QString where = u"seed %1"_s.arg(seed);
            QVERIFY2(bool(done) == said.faults.isNone(), qPrintable(where));
            if (!done) {
                QCOMPARE(done.error(), said.faults.asOne());
                QVERIFY2(desk.held() == before && desk.versions() == versions, qPrintable(where));
                ++refused;
                continue;
            }
            QCOMPARE(qsizetype(desk.session->patients()->size()) - patients, said.newPatients);
            QCOMPARE(qsizetype(done->visits), said.newVisits);
            const Held after = desk.held();
            for (const exchange::VisitPreview& visit : said.visits) {
                const std::pair place(visit.patient, visit.day);
                QCOMPARE(!before.findings.contains(place), visit.becomes == exchange::Becomes::New);
                QCOMPARE(before.findings.contains(place) &&
                             before.findings.at(place) != after.findings.at(place),
                         visit.becomes == exchange::Becomes::Changed);
            }
            QVERIFY2((desk.versions() == versions && after == before) == said.isNothingNew(),
                     qPrintable(where));
            QVERIFY2(desk.preview(rows).isNothingNew(), qPrintable(where));
            ++taken;
            changed += said.changedVisits > 0 ? 1 : 0;
            if (said.isNothingNew())
                continue;
            const auto back = desk.takeBack();
            QVERIFY2(back, qPrintable(where + (back ? QString() : back.error().what.english())));
            QVERIFY2(desk.held() == before, qPrintable(where));
            // Nor is it an error that the same file must not bring back.
            QCOMPARE(desk.preview(rows).newVisits, said.newVisits);
            QVERIFY2(desk.import(rows) && desk.held() == after, qPrintable(where));
        }
        QVERIFY2(taken > 10 && changed > 5 && refused > 5,
                 qPrintable(u"%1 %2 %3"_s.arg(taken).arg(changed).arg(refused)));
    }

    void thePreviewSaysWhatBecomesOfEachVisit()
    {
        ImportDesk desk;
        QVERIFY(desk.import({walk(), walk(later)}));
        const exchange::Preview preview = desk.preview(
            {walk(), walk(later),
             walk({{u"date"_s, u"2024-04-01"_s}, {u"measure"_s, u"berg-balance"_s}, {u"value"_s, u"46"_s}}),
             walk({{u"patient"_s, u"T-2"_s}}), walk({{u"patient"_s, u"T-3"_s}, {u"value"_s, u"0"_s}}),
             walk({{u"value"_s, u"9"_s}, {u"date"_s, u"2024-03-01"_s}})});
        // Line 7 says otherwise than line 2, so that visit is left out.
        QCOMPARE(preview.visits.size(), size_t(2));
        const exchange::VisitPreview& amended = preview.visits.front();
        QCOMPARE(amended.line, 3);
        QCOMPARE(amended.becomes, exchange::Becomes::Changed);
        QCOMPARE(amended.further.size(), size_t(1));
        QVERIFY(!amended.further.front().isDraft);
        QCOMPARE(amended.further.front().findings.front().measure, u"berg-balance"_s);
        QVERIFY(!amended.further.front().before.front());
        const exchange::VisitPreview& added = preview.visits.back();
        QVERIFY(added.isPatientNew && added.becomes == exchange::Becomes::New);
        QCOMPARE(added.newFindings, 1);
        QCOMPARE(preview.newPatients, 1);
        QCOMPARE(preview.newVisits, 1);
        QCOMPARE(preview.changedVisits, 1);
        QCOMPARE(preview.faults.count(), 2);
        QCOMPARE(preview.faults.byLine().front().line, 6);
        QCOMPARE(preview.faults.byLine().back().line, 7);
    }

    void stoppedNothingIsTaken_data()
    {
        QTest::addColumn<int>("at");
        QTest::newRow("while it is read against the records") << 10;
        QTest::newRow("while it is written") << 60;
    }

    void stoppedNothingIsTaken()
    {
        QFETCH(int, at);
        ImportDesk desk;
        std::vector<Cells> rows;
        for (int i = 0; i < 20; ++i)
            rows.push_back(walk({{u"patient"_s, u"S-%1"_s.arg(i)}}));
        int last = -1;
        const auto stopped = desk.import(rows, [&](int percent) {
            last = percent;
            return percent < at;
        });
        QVERIFY(!stopped);
        QVERIFY(last >= at && last < 100);
        QCOMPARE(stopped.error().what.english(), u"This was stopped; the records are as they were."_s);
        QVERIFY(desk.session->patients()->empty());
        QVERIFY(!*session::lastImport(*desk.session));
    }

    void whoIsInFocusIsReadAgain()
    {
        ImportDesk desk;
        QVERIFY(desk.import({walk()}));
        desk.session->choosePatient(desk.idOf(u"T-1"_s));
        QSignalSpy visits(desk.session.get(), &session::Session::visitsChanged);
        QSignalSpy patients(desk.session.get(), &session::Session::patientChanged);
        QVERIFY(desk.import({walk(later)}));
        QCOMPARE(desk.session->visits().size(), size_t(2));
        QCOMPARE(visits.size(), 1);
        QCOMPARE(patients.size(), 1);
    }

    void takenBackVisitsStayReadableAsEnteredInError()
    {
        ImportDesk desk;
        QVERIFY(desk.import({walk(), walk(later)}));
        const auto last = *session::lastImport(*desk.session);
        QVERIFY(last);
        QCOMPARE(last->file, u"march.csv"_s);
        QCOMPARE(last->visits, 2);
        const auto back = desk.takeBack();
        QVERIFY(back);
        QCOMPARE(*back, (session::TakenBack{2, 0, 0, 1}));
        const std::vector<records::Visit> versions = desk.versionsOf(u"T-1"_s);
        QCOMPARE(versions.size(), size_t(2));
        QCOMPARE(versions.front().withdrawn->reason, u"Import of march.csv taken back"_s);
        QCOMPARE(versions.front().withdrawn->author, *desk.answers.signer);
        QVERIFY(!*session::lastImport(*desk.session));
        QCOMPARE(desk.takeBack().error().kind, base::ErrorKind::NotFound);
    }

    void takenBackADraftLosesOnlyWhatWentIntoIt()
    {
        ImportDesk desk;
        desk.session->choosePatient(desk.add(u"Aaltje"_s, u"Borre"_s, {}, u"T-1"_s).id);
        const auto draft = desk.session->startVisit(QDate(2024, 3, 1));
        QVERIFY(draft);
        records::Finding walked;
        walked.measure = u"timed-up-and-go"_s;
        walked.value = values::Quantity{12.5, values::Unit::Second};
        walked.note = u"stiff"_s;
        QVERIFY(desk.session->saveFinding(draft->id, walked));
        const Held before = desk.held();
        const Cells same = {{u"population"_s, {}}, {u"sex"_s, {}}};
        Cells first = walk(same), second = walk(same), third = walk(same);
        second[u"trial"_s] = u"2"_s;
        second[u"value"_s] = u"11"_s;
        third.insert_or_assign(u"measure"_s, u"berg-balance"_s);
        third.insert_or_assign(u"value"_s, u"46"_s);
        QVERIFY2(desk.import({first, second, third}),
                 qPrintable(desk.preview({first, second, third}).faults.byLine().size() > 0
                                ? desk.preview({first, second, third}).faults.asOne().what.english()
                                : QString()));
        QVERIFY(desk.held() != before);
        const auto back = desk.takeBack();
        QVERIFY(back);
        QCOMPARE(back->drafts, 1);
        QVERIFY(desk.held() == before);
        QCOMPARE(desk.session->visitInFocus()->state, records::VisitState::Draft);
        QVERIFY(!desk.session->patientInFocus().born); // what the file filled in
    }

    void takenBackAnAmendmentIsAmendedToWhatItHeld()
    {
        ImportDesk desk;
        QVERIFY(desk.import({walk()}));
        QVERIFY(desk.import({walk(), walk(berg)}));
        QCOMPARE(desk.versionsOf(u"T-1"_s).size(), size_t(2));
        const auto back = desk.takeBack();
        QVERIFY(back);
        QCOMPARE(*back, (session::TakenBack{0, 1, 0, 0}));
        const std::vector<records::Visit> versions = desk.versionsOf(u"T-1"_s);
        QCOMPARE(versions.size(), size_t(3));
        QCOMPARE(versions.back().state, records::VisitState::Amended);
        QCOMPARE(versions.back().amendmentReason, u"Import of march.csv taken back"_s);
        QCOMPARE(versions.back().findings, versions.front().findings);
        // The first import has an amendment on top now.
        QCOMPARE(desk.takeBack().error().kind, base::ErrorKind::Refused);
    }

    void whatStandsOnTopKeepsTheImport_data()
    {
        QTest::addColumn<int>("act");
        QTest::newRow("a visit is amended") << 0;
        QTest::newRow("a visit is entered in error") << 1;
        QTest::newRow("the patient is written") << 2;
        QTest::newRow("a visit is added") << 3;
        QTest::newRow("a letter is begun") << 4;
        QTest::newRow("evidence is chosen") << 5;
        QTest::newRow("a visit is declared equal") << 6;
    }

    void whatStandsOnTopKeepsTheImport()
    {
        QFETCH(int, act);
        ImportDesk desk;
        QVERIFY(desk.import({walk(), walk(later), walk({{u"patient"_s, u"T-2"_s}})}));
        session::Session& session = *desk.session;
        session.choosePatient(desk.idOf(u"T-1"_s));
        const records::VisitId first = session.visits().front().id;
        const records::VisitId second = session.visits().back().id;
        records::Patient patient = session.patientInFocus();
        patient.notes = u"by hand"_s;
        records::Letter letter;
        letter.patient = patient.id;
        letter.visit = first;
        const std::function<bool()> acts[] = {
            [&] { return bool(session.amendVisit(first, u"late"_s)); },
            [&] { return bool(session.withdrawVisit(first, u"wrong person"_s)); },
            [&] { return bool(session.savePatient(patient)); },
            [&] { return bool(session.startVisit(clinic_desk::today)); },
            [&] { return bool(session.saveLetter(letter)); },
            [&] { return bool(session.chooseEvidence(u"timed-up-and-go"_s, {}, u"own protocol"_s)); },
            [&] { return bool(session.declareEqual(u"timed-up-and-go"_s, first, second, u"same"_s)); }};
        QVERIFY(acts[act]());
        const Held before = desk.held();
        const auto refused = desk.takeBack();
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, base::ErrorKind::Refused);
        QVERIFY(refused.error().what.english().contains(u"T-1"_s));
        QVERIFY(desk.held() == before); // T-2 too
        QVERIFY(*session::lastImport(session));
    }

    void takingBackCanBeStopped()
    {
        ImportDesk desk;
        QVERIFY(desk.import({walk(), walk({{u"patient"_s, u"T-2"_s}})}));
        const Held before = desk.held();
        const auto stopped = desk.takeBack([](int percent) { return percent == 0; });
        QVERIFY(!stopped);
        QCOMPARE(stopped.error().what.english(), u"This was stopped; the records are as they were."_s);
        QVERIFY(desk.held() == before);
        QVERIFY(desk.takeBack());
    }

private:
    /// A draft that the next file may add to.
    static void amendOne(ImportDesk& desk)
    {
        const QString number = desk.session->patients()->front().recordNumber;
        desk.session->choosePatient(desk.idOf(number));
        const bool isAmended =
            bool(desk.session->amendVisit(desk.session->visits().front().id, u"not complete"_s));
        QVERIFY(isAmended);
        desk.session->leavePatient();
    }
};

HOUSE_TEST(TestImporting)

} // namespace test_importing

#include "test_importing.moc"
