#include "core/judging/repeats.h"
#include "core/judging/service_report.h"
#include "core/records/letter.h"
#include "tests/support/clinic_desk.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_everyone
{

using clinic_desk::Desk;
using judging::RepeatSource;
using records::Side;

struct Clinic : Desk {
    /// A signed visit of the patient in focus with two trials of the peg test on the right.
    records::VisitId pegs(QDate day, double first, double second, bool isStable = false)
    {
        const auto visit = session->startVisit(day);
        records::Finding finding;
        finding.measure = u"nine-hole-peg"_s;
        finding.side = Side::Right;
        finding.trials = {first, second};
        finding.value = values::Quantity{(first + second) / 2, values::Unit::Second};
        records::Conditions conditions = visit->conditions;
        if (isStable)
            conditions[u"retest"_s] = u"no-change-expected"_s;
        conditions[u"footwear"_s] = u"own-shoes"_s;
        const bool isStored = session->saveFinding(visit->id, finding) &&
                              session->saveConditions(visit->id, conditions, true) &&
                              session->signVisit(visit->id, *answers.signer);
        return isStored ? visit->id : records::VisitId();
    }

    void addPatients(int count)
    {
        for (int each = 0; each < count; ++each) {
            const auto patient = add(u"Invented"_s, u"P%1"_s.arg(each), QDate(1950, 1, 1));
            session->choosePatient(patient.id);
            pegs(QDate(2026, 1, 5), 20 + each, 21 + each);
            pegs(QDate(2026, 1, 12), 20 + each, 20.4 + each, true);
        }
    }
};

class TestEveryone : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void thatNothingChangedIsSaidOfOneVisitAlone();
    void trialsAreGatheredOverAllPatients();
    void markedVisitsAreGatheredOverAllPatients();
    void aServiceReportKnowsTheLettersOfAllVersions();
    void aServiceReportCanBeStopped();
};

void TestEveryone::thatNothingChangedIsSaidOfOneVisitAlone()
{
    Clinic desk;
    desk.session->choosePatient(desk.add(u"Halden"_s, u"Mirrit"_s, QDate(1951, 3, 4)).id);
    QVERIFY(!desk.pegs(QDate(2026, 1, 5), 20, 21, true).text.isEmpty());
    const auto next = desk.session->startVisit(QDate(2026, 2, 5));
    QVERIFY(next);
    QCOMPARE(next->conditions, (records::Conditions{{u"footwear"_s, u"own-shoes"_s}}));
}

void TestEveryone::trialsAreGatheredOverAllPatients()
{
    Clinic desk;
    desk.addPatients(3);
    const auto found = desk.session->repeatedResults({u"nine-hole-peg"_s, Side::Right, RepeatSource::Trials});
    QVERIFY(found);
    QCOMPARE(found->repeats.size(), size_t(3));
    QVERIFY(std::ranges::find(found->repeats, std::vector<double>{20, 21}) != found->repeats.end());
    QCOMPARE(found->mostDays, 0);
    QVERIFY(desk.session->repeatedResults({u"nine-hole-peg"_s, Side::Left, RepeatSource::Trials})
                ->repeats.empty());
}

void TestEveryone::markedVisitsAreGatheredOverAllPatients()
{
    Clinic desk;
    desk.addPatients(3);
    const auto found =
        desk.session->repeatedResults({u"nine-hole-peg"_s, Side::Right, RepeatSource::MarkedVisits});
    QVERIFY(found);
    QCOMPARE(found->repeats.size(), size_t(3));
    QVERIFY(std::ranges::find(found->repeats, std::vector<double>{20.5, 20.2}) != found->repeats.end());
    QCOMPARE(found->fewestDays, 7);
    QCOMPARE(found->from, QDate(2026, 1, 5));
}

void TestEveryone::aServiceReportKnowsTheLettersOfAllVersions()
{
    Clinic desk;
    for (int each = 0; each < 5; ++each) {
        const auto patient = desk.add(u"Invented"_s, u"P%1"_s.arg(each), QDate(1950, 1, 1));
        desk.session->choosePatient(patient.id);
        const auto visit = desk.pegs(QDate(2026, 3, 2), 20, 21);
        records::Letter letter;
        letter.patient = patient.id;
        letter.visit = visit;
        letter.author = *desk.answers.signer;
        letter.body = u"<p>Invented</p>"_s;
        letter.pdf = "%PDF";
        const auto saved = desk.session->saveLetter(letter);
        QVERIFY(saved && desk.session->signOffLetter(*saved));
        const auto amended = desk.session->amendVisit(visit, u"The wrong side"_s);
        QVERIFY(amended && desk.session->signVisit(amended->id, *desk.answers.signer));
    }
    const auto withdrawn = desk.pegs(QDate(2026, 3, 3), 20, 21);
    QVERIFY(desk.session->withdrawVisit(withdrawn, u"Another patient"_s));
    desk.pegs(QDate(2026, 3, 4), 20, 21);
    const auto report = desk.session->serviceReport({QDate(2026, 3, 1), QDate(2026, 3, 31)});
    QVERIFY(report && report->counts);
    QCOMPARE(report->counts->patients, 5);
    QCOMPARE(report->counts->visits, 6);
    QCOMPARE(report->counts->withLetter, 5);
    QCOMPARE(report->counts->withoutLetter, 1);
    QCOMPARE(report->counts->daysToLetter, (statistics::Quartiles{10, 10, 10}));
}

void TestEveryone::aServiceReportCanBeStopped()
{
    Clinic desk;
    desk.addPatients(4);
    std::vector<int> told;
    const auto stopped =
        desk.session->serviceReport({QDate(2026, 1, 1), QDate(2026, 1, 31)}, [&](int percent) {
            told.push_back(percent);
            return percent < 50;
        });
    QVERIFY(!stopped);
    QCOMPARE(stopped.error().kind, base::ErrorKind::Refused);
    QCOMPARE(told, (std::vector{0, 25, 50}));
}

HOUSE_TEST(TestEveryone)

} // namespace test_everyone

#include "test_everyone.moc"
