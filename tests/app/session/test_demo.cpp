#include "app/session/demo.h"
#include "core/catalogue/reader.h"
#include "core/judging/target_progress.h"
#include "core/records/happening.h"
#include "core/records/history.h"
#include "core/records/summary.h"
#include "core/storage/audit_trail.h"
#include "core/storage/visits.h"
#include "tests/support/test_support.h"

#include <QTemporaryDir>

#include <set>

using namespace Qt::StringLiterals;

namespace test_demo
{

using records::VisitState;

const QDate day(2031, 2, 28);

QDateTime now()
{
    return QDateTime(day, QTime(6, 0), Qt::UTC);
}

class TestDemo : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void initTestCase();
    void cleanupTestCase();
    void theClinicIsMarkedDemo();
    void aDozenPatientsWithFourToNineVisits();
    void visitsAreOfThisYearAndNeverOfTomorrow();
    void everyMeasureIsFoundAndEverySideAndState();
    void oneDraftIsOpenTodayAndHalfFilled();
    void oneVisitIsAmendedAndTheOldVersionKept();
    void patientsAreComplete();
    void whatHappenedAndWhatIsWantedFitTheVisits();
    void theTrailSaysWhatWasImported();
    void itIsRefusedWherePatientsAre();

private:
    std::vector<records::PatientSummary> patients() { return *m_session->patients(); }
    std::vector<records::Visit> versionsOf(const records::PatientId& id)
    {
        const auto versions = storage::Visits(m_session->store()).ofPatient(id);
        return versions ? *versions : std::vector<records::Visit>();
    }
    std::vector<records::Visit> allVersions();

    QTemporaryDir m_folder;
    std::unique_ptr<session::Session> m_session;
};

std::vector<records::Visit> TestDemo::allVersions()
{
    std::vector<records::Visit> all;
    for (const records::PatientSummary& patient : patients()) {
        for (records::Visit& visit : versionsOf(patient.id))
            all.push_back(std::move(visit));
    }
    return all;
}

void TestDemo::initTestCase()
{
    const auto catalogue = catalogue::readCatalogue(u":/catalogue"_s);
    QVERIFY(catalogue);
    auto session = session::Session::open(m_folder.filePath(u"demo.aplomb"_s), *catalogue, {u"tester"_s, now},
                                          records::Opening::MayCreate);
    QVERIFY(session);
    m_session = std::move(*session);
    const auto made = session::makeDemoClinic(*m_session);
    QVERIFY2(made, qPrintable(made ? QString() : made.error().what.english()));
}

void TestDemo::cleanupTestCase()
{
    m_session.reset();
}

void TestDemo::theClinicIsMarkedDemo()
{
    QVERIFY(m_session->clinic().isDemo);
    QVERIFY(!m_session->clinic().name.isEmpty());
}

void TestDemo::aDozenPatientsWithFourToNineVisits()
{
    QCOMPARE(patients().size(), size_t(12));
    for (const records::PatientSummary& patient : patients()) {
        QVERIFY(patient.recordNumber.startsWith(u"DEMO-"_s));
        const size_t visits = records::current(versionsOf(patient.id), true).size();
        QVERIFY2(visits >= 4 && visits <= 9, qPrintable(patient.recordNumber));
    }
}

void TestDemo::visitsAreOfThisYearAndNeverOfTomorrow()
{
    for (const records::PatientSummary& patient : patients()) {
        QVERIFY(patient.lastVisit && *patient.lastVisit <= m_session->today());
        QVERIFY(patient.lastVisit->daysTo(m_session->today()) <= 31);
    }
}

void TestDemo::everyMeasureIsFoundAndEverySideAndState()
{
    std::set<QString> measures;
    std::set<QString> states;
    std::set<records::Side> sides;
    for (const records::Visit& visit : allVersions()) {
        for (const records::Finding& finding : visit.findings) {
            measures.insert(finding.measure);
            states.insert(values::stateCode(finding.value));
            sides.insert(finding.side);
        }
    }
    const auto follows = [&](const catalogue::Measure& measure) {
        const auto visits = allVersions();
        return measure.computed &&
               !records::history(visits, m_session->catalogue(), measure.id, records::Side::None).empty();
    };
    for (const catalogue::Measure& measure : m_session->catalogue().measures)
        QVERIFY2(measures.contains(measure.id) || follows(measure), qPrintable(measure.id));
    QCOMPARE(states,
             (std::set{u"done"_s, u"unable"_s, u"not-attempted"_s, u"refused"_s, u"not-applicable"_s}));
    QCOMPARE(sides.size(), size_t(3));
}

void TestDemo::oneDraftIsOpenTodayAndHalfFilled()
{
    std::vector<records::Visit> drafts;
    for (const records::Visit& visit : allVersions()) {
        if (visit.state == VisitState::Draft)
            drafts.push_back(visit);
    }
    QCOMPARE(drafts.size(), size_t(1));
    QCOMPARE(drafts.front().day, m_session->today());
    QVERIFY(drafts.front().findings.size() > 10);
    QVERIFY(!drafts.front().finding(u"timed-up-and-go"_s, records::Side::None));
    QVERIFY(!drafts.front().conditionsConfirmed);
}

void TestDemo::oneVisitIsAmendedAndTheOldVersionKept()
{
    std::vector<records::Visit> amended;
    for (const records::Visit& visit : allVersions()) {
        if (visit.state == VisitState::Amended)
            amended.push_back(visit);
    }
    QCOMPARE(amended.size(), size_t(1));
    QVERIFY(amended.front().amendmentReason.contains(u"43, not 34"_s));
    const auto berg = [](const records::Visit& visit) {
        return values::number(visit.finding(u"berg-balance"_s, records::Side::None)->value);
    };
    QCOMPARE(berg(amended.front()), 43.0);
    for (const records::Visit& visit : allVersions()) {
        if (visit.series == amended.front().series && visit.version == 1)
            QCOMPARE(berg(visit), 34.0);
    }
}

void TestDemo::patientsAreComplete()
{
    for (const records::PatientSummary& summary : patients()) {
        const auto patient = m_session->patient(summary.id);
        QVERIFY(patient);
        QVERIFY(patient->born && patient->sex != records::Sex::Unknown &&
                patient->dominantHand != records::Hand::Unknown);
        QVERIFY(patient->heightCm && patient->weightKg);
        QVERIFY(!patient->diagnosis.isEmpty() && !patient->population.isEmpty() &&
                !patient->referrer.isEmpty());
        for (const records::Visit& visit : versionsOf(summary.id)) {
            QVERIFY2(!patient->onset || *patient->onset <= visit.day, qPrintable(patient->recordNumber));
            QVERIFY(visit.state == VisitState::Draft || !visit.author.registration.isEmpty());
        }
    }
}

void TestDemo::whatHappenedAndWhatIsWantedFitTheVisits()
{
    std::set<records::HappeningKind> kinds;
    std::set<judging::TargetState> states;
    for (const records::PatientSummary& patient : patients()) {
        m_session->choosePatient(patient.id);
        const auto& visits = m_session->visits();
        for (const records::Happening& happening : m_session->happenings()) {
            QVERIFY(happening.from >= visits.front().day);
            QVERIFY(happening.until.value_or(happening.from) <= m_session->today());
            kinds.insert(happening.kind);
        }
        const judging::Ground ground{visits, m_session->patientInFocus(), m_session->catalogue(),
                                     m_session->clinic().judging};
        for (const records::Target& target : records::newest(m_session->targets())) {
            QVERIFY(std::ranges::any_of(
                visits, [&](const records::Visit& visit) { return visit.day == target.agreedOn; }));
            states.insert(judging::targetProgress(target, ground, m_session->today()).state);
        }
    }
    m_session->leavePatient();
    QCOMPARE(kinds.size(), size_t(5));
    using judging::TargetState;
    QCOMPARE(states, (std::set{TargetState::ReachedBeyondError, TargetState::NotReached,
                               TargetState::NoLongerLookedAt}));
}

void TestDemo::theTrailSaysWhatWasImported()
{
    const records::Visit visit = allVersions().front();
    const auto trail = storage::AuditTrail(m_session->store()).ofRecord(visit.id.text);
    QVERIFY(trail);
    QVERIFY(std::ranges::any_of(*trail, [](const storage::AuditEntry& entry) {
        return entry.action == u"imported"_s && entry.kind == u"visit"_s && entry.who == u"tester"_s;
    }));
}

void TestDemo::itIsRefusedWherePatientsAre()
{
    const auto again = session::makeDemoClinic(*m_session);
    QVERIFY(!again);
    QCOMPARE(again.error().kind, base::ErrorKind::Refused);
    QCOMPARE(patients().size(), size_t(12));
}

HOUSE_TEST(TestDemo)

} // namespace test_demo

#include "test_demo.moc"
