#include "core/judging/repeats.h"
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

HOUSE_TEST(TestEveryone)

} // namespace test_everyone

#include "test_everyone.moc"
