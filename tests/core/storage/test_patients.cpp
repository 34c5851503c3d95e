#include "core/storage/audit_trail.h"
#include "core/storage/patients.h"
#include "core/storage/visits.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <cmath>

using namespace Qt::StringLiterals;

namespace test_patients
{

using base::ErrorKind;
using records::Patient;
using storage::Patients;

class TestPatients : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyFieldComesBack()
    {
        RecordsFile file;
        Patient patient = fullPatient();

        const auto saved = Patients(file.store()).save(patient);
        QVERIFY(saved);
        patient.revision = 1;
        QCOMPARE(*saved, patient);
        file.close();
        QCOMPARE(*Patients(*file.openAgain()).withId(patient.id), patient);
    }

    void absentStaysAbsent()
    {
        RecordsFile file;
        const auto saved = Patients(file.store()).save(Patient{});
        QVERIFY(saved);
        Patient expected;
        expected.id = saved->id;
        expected.revision = 1;
        QCOMPARE(*saved, expected);
        QVERIFY(!saved->id.isNull());
    }

    void textLosesZeroBytesAndOuterSpaces()
    {
        RecordsFile file;
        Patient patient;
        patient.family = u"  Fer\0rer "_s;
        QCOMPARE(Patients(file.store()).save(patient)->family, u"Ferrer"_s);
    }

    void aChangeCountsTheRevisionUp()
    {
        RecordsFile file;
        Patients patients(file.store());
        Patient patient = *patients.save(fullPatient());
        patient.born.reset();
        patient.heightCm.reset();
        patient.family = u"Nowak"_s;

        const auto changed = patients.save(patient);
        QVERIFY(changed);
        QCOMPARE(changed->revision, 2);
        QCOMPARE(changed->family, u"Nowak"_s);
        QVERIFY(!changed->born && !changed->heightCm);
    }

    void aStaleSaveIsAConflictAndChangesNothing()
    {
        RecordsFile file;
        Patients patients(file.store());
        const Patient first = *patients.save(fullPatient());
        Patient theirs = first;
        theirs.family = u"Nowak"_s;
        const Patient kept = *Patients(file.store()).save(theirs);

        Patient ours = first;
        ours.family = u"Kowal"_s;
        const auto refused = patients.save(ours);
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::Conflict);
        QCOMPARE(*patients.withId(first.id), kept);
    }

    void aRecordNumberBelongsToOnePatient()
    {
        RecordsFile file;
        Patients patients(file.store());
        QVERIFY(patients.save(fullPatient()));
        const auto refused = patients.save(fullPatient());
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::Invalid);
        QCOMPARE(patients.all()->size(), size_t(1));
    }

    void manyPatientsMayLackARecordNumber()
    {
        RecordsFile file;
        Patients patients(file.store());
        QVERIFY(patients.save(Patient{}));
        QVERIFY(patients.save(Patient{}));
        QVERIFY(!*patients.withRecordNumber({}));
    }

    void aRecordNumberFindsItsPatient()
    {
        RecordsFile file;
        Patients patients(file.store());
        const Patient saved = *patients.save(fullPatient());
        QCOMPARE((*patients.withRecordNumber(u"K-0007"_s)).value(), saved);
        QVERIFY(!*patients.withRecordNumber(u"K-0008"_s));
    }

    void anUnknownPatientIsNotFound()
    {
        RecordsFile file;
        Patients patients(file.store());
        QCOMPARE(patients.withId(records::PatientId::make()).error().kind, ErrorKind::NotFound);
        Patient unknown = fullPatient();
        unknown.revision = 3;
        QCOMPARE(patients.save(unknown).error().kind, ErrorKind::NotFound);
    }

    void whatTheDatabaseCannotHoldIsRefused()
    {
        RecordsFile file;
        Patient patient = fullPatient();
        patient.heightCm = std::nan("");
        QCOMPARE(Patients(file.store()).save(patient).error().kind, ErrorKind::Invalid);
        patient = fullPatient();
        patient.born = QDate();
        QCOMPARE(Patients(file.store()).save(patient).error().kind, ErrorKind::Invalid);
        QVERIFY(Patients(file.store()).all()->empty());
    }

    void theSummaryCountsVisitsOnceAndKnowsDrafts()
    {
        RecordsFile file;
        Patients patients(file.store());
        storage::Visits visits(file.store());
        const Patient patient = *patients.save(fullPatient());
        const auto wrongDay = *visits.add(fullVisit(patient.id, QDate(2026, 2, 20)));
        QVERIFY(visits.sign(wrongDay.id, {u"Dr Serra"_s, {}, {}}));
        const auto amended = *visits.amend(wrongDay.id, u"wrong day"_s);
        QVERIFY(visits.saveDay(amended.id, QDate(2026, 2, 10)));

        auto summary = patients.all()->front();
        QCOMPARE(summary.visits, 1);
        QCOMPARE(summary.lastVisit, QDate(2026, 2, 20)); // the amendment does not count until it is signed
        QVERIFY(summary.hasDraft);

        QVERIFY(visits.sign(amended.id, {u"Dr Serra"_s, {}, {}}));
        QVERIFY(visits.add(fullVisit(patient.id, QDate(2026, 1, 5))));
        summary = patients.all()->front();
        QCOMPARE(summary.visits, 2);
        QCOMPARE(summary.lastVisit, QDate(2026, 2, 10));
        QVERIFY(summary.hasDraft);
        QCOMPARE(summary.id, patient.id);
        QCOMPARE(summary.family, patient.family);
        QCOMPARE(summary.given, patient.given);
        QCOMPARE(summary.recordNumber, patient.recordNumber);
        QCOMPARE(summary.born, patient.born);
        QCOMPARE(summary.diagnosis, patient.diagnosis);
    }

    void aChoiceOfEvidenceSurvivesSavingAndReopening()
    {
        RecordsFile file;
        Patients patients(file.store());
        Patient patient = *patients.save(fullPatient());
        QVERIFY(patients.chooseEvidence(patient.id, {u"sara"_s, u"sara-row"_s, u" same device "_s, {}, {}}));
        QVERIFY(patients.chooseEvidence(patient.id, {u"sara"_s, {}, u"device changed"_s, {}, {}}));
        patient.family = u"Nowak"_s;
        QVERIFY(patients.save(patient));
        file.close();
        const auto store = file.openAgain();
        const auto choices = Patients(*store).withId(patient.id)->choices;
        QCOMPARE(choices.size(), 2u);
        QCOMPARE(choices.front().measure, u"sara"_s);
        QCOMPARE(choices.front().threshold, u"sara-row"_s);
        QCOMPARE(choices.front().reason, u"same device"_s);
        QCOMPARE(choices.front().who, u"tester"_s);
        QVERIFY(choices.front().chosenAt < choices.back().chosenAt);
        QCOMPARE(choices.back().threshold, QString());
        QCOMPARE(*Patients(*store).chosenThresholds(), QStringList{u"sara-row"_s});
        QCOMPARE(Patients(*store).withRecordNumber(u"K-0007"_s)->value().choices, choices);
    }

    void aChoiceNeedsAReasonAndAPatient()
    {
        RecordsFile file;
        Patients patients(file.store());
        const Patient patient = *patients.save(fullPatient());
        const auto unreasoned = patients.chooseEvidence(patient.id, {u"sara"_s, u"row"_s, u"  "_s, {}, {}});
        QVERIFY(!unreasoned);
        QCOMPARE(unreasoned.error().kind, ErrorKind::Refused);
        const auto nobodys =
            patients.chooseEvidence(records::PatientId::make(), {u"sara"_s, u"row"_s, u"x"_s, {}, {}});
        QVERIFY(!nobodys);
        QCOMPARE(nobodys.error().kind, ErrorKind::NotFound);
        QVERIFY(patients.withId(patient.id)->choices.empty());
    }

    void aChoiceIsInTheTrail()
    {
        RecordsFile file;
        Patients patients(file.store());
        const Patient patient = *patients.save(fullPatient());
        QVERIFY(patients.chooseEvidence(patient.id, {u"sara"_s, u"row"_s, u"x"_s, {}, {}}));
        const auto entries = *storage::AuditTrail(file.store()).ofRecord(patient.id.text);
        QCOMPARE(entries.back().action, u"changed"_s);
        QCOMPARE(entries.back().kind, u"patient"_s);
    }

    void aDeclarationSurvivesSavingAndReopening()
    {
        RecordsFile file;
        Patients patients(file.store());
        storage::Visits visits(file.store());
        Patient patient = *patients.save(fullPatient());
        const auto first = visits.add(fullVisit(patient.id, QDate(2026, 2, 10)))->series;
        const auto second = visits.add(fullVisit(patient.id, QDate(2026, 2, 20)))->series;
        const QString walk = u"six-minute-walk"_s;
        QVERIFY(
            patients.declareEqual(patient.id, {walk, first, second, false, u" in the letter "_s, {}, {}}));
        QVERIFY(patients.declareEqual(patient.id, {walk, first, second, true, u"mistaken"_s, {}, {}}));
        patient.family = u"Nowak"_s;
        QVERIFY(patients.save(patient));
        file.close();
        const auto store = file.openAgain();
        const auto declared = Patients(*store).withId(patient.id)->declared;
        QCOMPARE(declared.size(), 2u);
        QCOMPARE(declared.front().measure, walk);
        QCOMPARE(declared.front().earlier, first);
        QCOMPARE(declared.front().later, second);
        QVERIFY(!declared.front().isTakenBack && declared.back().isTakenBack);
        QCOMPARE(declared.front().reason, u"in the letter"_s);
        QCOMPARE(declared.front().who, u"tester"_s);
        QVERIFY(declared.front().declaredAt < declared.back().declaredAt);
        QCOMPARE(Patients(*store).withRecordNumber(u"K-0007"_s)->value().declared, declared);
        QCOMPARE(storage::AuditTrail(*store).ofRecord(patient.id.text)->size(), 4u);
    }

    void aDeclarationNeedsAReasonAndTwoVisitsOfThePatient()
    {
        RecordsFile file;
        Patients patients(file.store());
        storage::Visits visits(file.store());
        const Patient patient = *patients.save(fullPatient());
        Patient other = fullPatient();
        other.recordNumber = u"K-0008"_s;
        QVERIFY(patients.save(other));
        const auto first = visits.add(fullVisit(patient.id, QDate(2026, 2, 10)))->series;
        const auto second = visits.add(fullVisit(patient.id, QDate(2026, 2, 20)))->series;
        const auto strange = visits.add(fullVisit(other.id, QDate(2026, 2, 20)))->series;
        const auto refusal = [&](const records::PatientId& whose, const records::VisitId& later,
                                 const QString& reason) {
            return patients.declareEqual(whose, {u"sara"_s, first, later, false, reason, {}, {}})
                .error()
                .kind;
        };
        QCOMPARE(refusal(patient.id, second, u"  "_s), ErrorKind::Refused);
        QCOMPARE(refusal(records::PatientId::make(), second, u"x"_s), ErrorKind::NotFound);
        QCOMPARE(refusal(patient.id, strange, u"x"_s), ErrorKind::NotFound);
        QCOMPARE(refusal(patient.id, first, u"x"_s), ErrorKind::NotFound);
        QVERIFY(patients.withId(patient.id)->declared.empty());
    }

    void aDiscardedDraftLeavesItsDeclarationBehind()
    {
        RecordsFile file;
        Patients patients(file.store());
        storage::Visits visits(file.store());
        const Patient patient = *patients.save(fullPatient());
        const auto first = visits.add(fullVisit(patient.id, QDate(2026, 2, 10)))->series;
        const auto draft = *visits.add(fullVisit(patient.id, QDate(2026, 2, 20)));
        QVERIFY(patients.declareEqual(patient.id, {u"sara"_s, first, draft.series, false, u"x"_s, {}, {}}));
        QVERIFY(visits.discard(draft.id));
        QCOMPARE(patients.withId(patient.id)->declared.size(), 1u);
        QCOMPARE(*file.store().fileFaults(), QStringList());
    }

    void aPatientWithoutVisitsIsListedToo()
    {
        RecordsFile file;
        QVERIFY(Patients(file.store()).save(fullPatient()));
        const auto summary = Patients(file.store()).all()->front();
        QCOMPARE(summary.visits, 0);
        QVERIFY(!summary.lastVisit && !summary.hasDraft);
    }
};

HOUSE_TEST(TestPatients)

} // namespace test_patients

#include "test_patients.moc"
