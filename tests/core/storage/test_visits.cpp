#include "core/storage/audit_trail.h"
#include "core/storage/patients.h"
#include "core/storage/visits.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <cmath>

using namespace Qt::StringLiterals;

namespace test_visits
{

using base::ErrorKind;
using records::Side;
using records::Visit;
using records::VisitState;
using storage::Visits;

const QDate day(2026, 2, 20);
const records::Author serra{u"Dr Serra"_s, u"neurologist"_s, u"R-12"_s};

/// A patient with one draft visit.
struct Clinic {
    RecordsFile file;
    records::Patient patient = *storage::Patients(file.store()).save(fullPatient());
    Visits visits{file.store()};
    Visit draft = *visits.add(fullVisit(patient.id, day));
};

records::Finding toes(int grade)
{
    return {u"toe-tapping"_s, Side::Right, values::Grade{grade}, {}, false, {}, {}, {}};
}

class TestVisits : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyFieldComesBack()
    {
        Clinic clinic;
        Visit visit = fullVisit(clinic.patient.id, day);
        visit.revision = 1;
        const auto added = clinic.visits.add(visit);
        QVERIFY(added);
        QCOMPARE(*added, visit);
        clinic.file.close();
        const auto reopened = clinic.file.openAgain();
        QCOMPARE(*Visits(*reopened).withId(visit.id), visit);
    }

    void aVisitMayBeEmpty()
    {
        Clinic clinic;
        Visit visit;
        visit.patient = clinic.patient.id;
        visit.day = day;
        const auto added = clinic.visits.add(visit);
        QVERIFY(added);
        QCOMPARE(added->series, added->id);
        QVERIFY(added->findings.empty() && added->conditions.empty());
    }

    void aPatientsVisitsComeOldestFirst()
    {
        Clinic clinic;
        const Visit later = *clinic.visits.add(fullVisit(clinic.patient.id, day.addDays(5)));
        const Visit earlier = *clinic.visits.add(fullVisit(clinic.patient.id, day.addDays(-5)));
        const auto all = clinic.visits.ofPatient(clinic.patient.id);
        QVERIFY(all);
        QCOMPARE(*all, (std::vector{earlier, clinic.draft, later}));
        QVERIFY(clinic.visits.ofPatient(records::PatientId::make())->empty());
    }

    void aVisitNeedsItsPatientAndADay()
    {
        Clinic clinic;
        QCOMPARE(clinic.visits.add(fullVisit(records::PatientId::make(), day)).error().kind,
                 ErrorKind::Invalid);
        QCOMPARE(clinic.visits.add(fullVisit(clinic.patient.id, QDate())).error().kind, ErrorKind::Invalid);
        QCOMPARE(clinic.visits.ofPatient(clinic.patient.id)->size(), size_t(1));
    }

    void aFindingIsReplacedWholeAndKeepsItsPlace()
    {
        Clinic clinic;
        QVERIFY(clinic.visits.saveFinding(clinic.draft.id, toes(4)));
        Visit expected = clinic.draft;
        expected.revision += 1;
        expected.findings.front() = toes(4);
        QCOMPARE(*clinic.visits.withId(clinic.draft.id), expected);
    }

    void aFindingLosesItsOldTrialsAndExceptions()
    {
        Clinic clinic;
        records::Finding speed = *clinic.draft.finding(u"gait-speed-comfortable"_s, Side::None);
        speed.trials = {0.9};
        speed.trialNumbers.clear();
        speed.exceptions = {{u"aid"_s, u"rollator"_s}};
        QVERIFY(clinic.visits.saveFinding(clinic.draft.id, speed));
        QCOMPARE(*clinic.visits.withId(clinic.draft.id)->finding(speed.measure, Side::None), speed);
    }

    void aNewFindingComesLast()
    {
        Clinic clinic;
        const records::Finding added{
            u"sara"_s, Side::None, values::Quantity{12.5, values::Unit::Score}, {}, false, {}, {}, {}};
        QVERIFY(clinic.visits.saveFinding(clinic.draft.id, added));
        QCOMPARE(clinic.visits.withId(clinic.draft.id)->findings.back(), added);
    }

    void aRemovedFindingIsGone()
    {
        Clinic clinic;
        QVERIFY(clinic.visits.removeFinding(clinic.draft.id, u"gait-speed-comfortable"_s, Side::None));
        const auto visit = clinic.visits.withId(clinic.draft.id);
        QVERIFY(visit->finding(u"gait-speed-comfortable"_s, Side::None) == nullptr);
        QCOMPARE(visit->findings.size(), clinic.draft.findings.size() - 1);
        QVERIFY(clinic.visits.removeFinding(clinic.draft.id, u"gait-speed-comfortable"_s, Side::None));
    }

    void whatIsNoNumberIsRefusedAndNothingIsLost()
    {
        Clinic clinic;
        records::Finding speed = *clinic.draft.finding(u"gait-speed-comfortable"_s, Side::None);
        speed.trials = {1.0, std::nan("")};
        QCOMPARE(clinic.visits.saveFinding(clinic.draft.id, speed).error().kind, ErrorKind::Invalid);
        speed.trials = {};
        speed.value = values::Quantity{HUGE_VAL, values::Unit::MetrePerSecond};
        QCOMPARE(clinic.visits.saveFinding(clinic.draft.id, speed).error().kind, ErrorKind::Invalid);
        QCOMPARE(*clinic.visits.withId(clinic.draft.id), clinic.draft);
    }

    void conditionsAndDayAreReplaced()
    {
        Clinic clinic;
        QVERIFY(clinic.visits.saveConditions(clinic.draft.id, {{u"aid"_s, u"rollator"_s}}, false));
        QVERIFY(clinic.visits.saveDay(clinic.draft.id, day.addDays(-1)));
        const auto visit = clinic.visits.withId(clinic.draft.id);
        QCOMPARE(visit->conditions, (records::Conditions{{u"aid"_s, u"rollator"_s}}));
        QVERIFY(!visit->conditionsConfirmed);
        QCOMPARE(visit->day, day.addDays(-1));
        QCOMPARE(clinic.visits.saveDay(clinic.draft.id, QDate()).error().kind, ErrorKind::Invalid);
    }

    void signingFreezesADraft()
    {
        Clinic clinic;
        const auto isSigned = clinic.visits.sign(clinic.draft.id, serra);
        QVERIFY(isSigned);
        QCOMPARE(isSigned->state, VisitState::Signed);
        QCOMPARE(isSigned->author, serra);
        QVERIFY(isSigned->signedAt.isValid());
        QCOMPARE(isSigned->signedAt.timeSpec(), Qt::UTC);
        QCOMPARE(isSigned->findings, clinic.draft.findings);

        const auto id = clinic.draft.id;
        QCOMPARE(clinic.visits.saveFinding(id, toes(1)).error().kind, ErrorKind::Refused);
        QCOMPARE(clinic.visits.removeFinding(id, u"toe-tapping"_s, Side::Right).error().kind,
                 ErrorKind::Refused);
        QCOMPARE(clinic.visits.saveConditions(id, {}, true).error().kind, ErrorKind::Refused);
        QCOMPARE(clinic.visits.saveDay(id, day.addDays(-1)).error().kind, ErrorKind::Refused);
        QCOMPARE(clinic.visits.discard(id).error().kind, ErrorKind::Refused);
        QCOMPARE(clinic.visits.sign(id, serra).error().kind, ErrorKind::Refused);
        QCOMPARE(*clinic.visits.withId(id), *isSigned);
    }

    void theInstantOfSigningIsTakenOnce()
    {
        Clinic clinic; // whose clock goes on whenever it is asked
        const auto isSigned = clinic.visits.sign(clinic.draft.id, serra);
        QVERIFY(isSigned);
        const auto entry = storage::AuditTrail(clinic.file.store()).ofRecord(clinic.draft.id.text)->back();
        QCOMPARE(entry.action, u"signed"_s);
        QCOMPARE(entry.at, isSigned->signedAt);
    }

    void signingNeedsAnAuthor()
    {
        Clinic clinic;
        QCOMPARE(clinic.visits.sign(clinic.draft.id, {u" "_s, {}, {}}).error().kind, ErrorKind::Refused);
        QCOMPARE(*clinic.visits.withId(clinic.draft.id), clinic.draft);
    }

    void aSignedVisitMayBeAddedAsItWasSigned()
    {
        Clinic clinic;
        Visit visit = fullVisit(clinic.patient.id, day);
        visit.state = VisitState::Signed;
        visit.author = serra;
        visit.signedAt = QDateTime(day, QTime(10, 30, 0, 5), Qt::UTC);
        visit.revision = 2;
        QCOMPARE(*clinic.visits.add(visit), visit);
    }

    void anAmendmentIsANewDraftWithEverythingInIt()
    {
        Clinic clinic;
        const Visit original = *clinic.visits.sign(clinic.draft.id, serra);
        const auto amendment = clinic.visits.amend(original.id, u"left and right exchanged"_s);
        QVERIFY(amendment);

        Visit expected = original;
        expected.id = amendment->id;
        expected.version = 2;
        expected.revision = 1;
        expected.state = VisitState::Draft;
        expected.author = {};
        expected.signedAt = {};
        expected.amendmentReason = u"left and right exchanged"_s;
        QCOMPARE(*amendment, expected);
        QVERIFY(amendment->id != original.id);

        QVERIFY(clinic.visits.saveFinding(amendment->id, toes(4)));
        QCOMPARE(clinic.visits.sign(amendment->id, serra)->state, VisitState::Amended);
        QCOMPARE(*clinic.visits.withId(original.id), original);
        QCOMPARE(clinic.visits.ofPatient(clinic.patient.id)->size(), size_t(2));
    }

    void amendingHasItsRules()
    {
        Clinic clinic;
        const auto refusedAs = [&](const records::VisitId& id, const QString& reason) {
            const auto amended = clinic.visits.amend(id, reason);
            return amended ? QString() : amended.error().what.english();
        };
        QVERIFY(refusedAs(clinic.draft.id, u"reason"_s).contains(u"draft"_s));
        QVERIFY(clinic.visits.sign(clinic.draft.id, serra));
        QVERIFY(refusedAs(clinic.draft.id, u"  "_s).contains(u"reason"_s));
        const Visit amendment = *clinic.visits.amend(clinic.draft.id, u"reason"_s);
        QVERIFY(refusedAs(clinic.draft.id, u"reason"_s).contains(u"already"_s));
        QVERIFY(clinic.visits.sign(amendment.id, serra));
        QVERIFY(refusedAs(clinic.draft.id, u"reason"_s).contains(u"newest"_s));
        QCOMPARE(clinic.visits.amend(amendment.id, u"again"_s)->version, 3);
    }

    void aDiscardedDraftIsGone()
    {
        Clinic clinic;
        QVERIFY(clinic.visits.discard(clinic.draft.id));
        QCOMPARE(clinic.visits.withId(clinic.draft.id).error().kind, ErrorKind::NotFound);
        QCOMPARE(clinic.visits.discard(clinic.draft.id).error().kind, ErrorKind::NotFound);
    }

    void aDiscardedAmendmentLeavesTheSignedVersion()
    {
        Clinic clinic;
        const Visit original = *clinic.visits.sign(clinic.draft.id, serra);
        const Visit amendment = *clinic.visits.amend(original.id, u"reason"_s);
        QVERIFY(clinic.visits.discard(amendment.id));
        QCOMPARE(*clinic.visits.ofPatient(clinic.patient.id), std::vector{original});
        QVERIFY(clinic.visits.amend(original.id, u"another reason"_s));
    }

    void aLaterVersionIsNotAdded()
    {
        Clinic clinic;
        Visit later = fullVisit(clinic.patient.id, day);
        later.version = 2;
        QCOMPARE(clinic.visits.add(later).error().kind, ErrorKind::Refused);
        later.version = 1;
        later.series = clinic.draft.id;
        QCOMPARE(clinic.visits.add(later).error().kind, ErrorKind::Refused);
    }

    void aVisitThatIsNotThereIsNotFound()
    {
        Clinic clinic;
        const auto nowhere = records::VisitId::make();
        QCOMPARE(clinic.visits.withId(nowhere).error().kind, ErrorKind::NotFound);
        QCOMPARE(clinic.visits.saveFinding(nowhere, toes(1)).error().kind, ErrorKind::NotFound);
        QCOMPARE(clinic.visits.amend(nowhere, u"reason"_s).error().kind, ErrorKind::NotFound);
    }
};

HOUSE_TEST(TestVisits)

} // namespace test_visits

#include "test_visits.moc"
