#include "core/judging/target_progress.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <set>

using namespace Qt::StringLiterals;

namespace test_target_progress
{

using examples::finding;
using judging::TargetProgress;
using judging::TargetState;
using judging::Verdict;
using records::Side;
using records::Target;
using records::Visit;
using values::Quantity;
using values::Unit;

const QString speed = u"gait-speed-comfortable"_s;
const QString peg = u"nine-hole-peg"_s;
const QDate today(2026, 12, 1);
const records::Conditions unaided = {{u"aid"_s, u"none"_s}, {u"medication"_s, u"on"_s}};
const records::Conditions withStick = {{u"aid"_s, u"stick"_s}, {u"medication"_s, u"on"_s}};

const catalogue::Catalogue& book()
{
    static const catalogue::Catalogue made = examples::catalogue();
    return made;
}

QDate month(int number)
{
    return {2026, number, 12};
}

Visit visit(int number, const records::Finding& found, const records::Conditions& conditions = unaided)
{
    return examples::visit(u"v%1"_s.arg(number), month(number), {found}, conditions);
}

Visit walked(int number, double metresPerSecond, const records::Conditions& conditions = unaided)
{
    return visit(number, finding(speed, Quantity{metresPerSecond, Unit::MetrePerSecond}), conditions);
}

Target target(double value, const QString& measure = speed, Side side = Side::None)
{
    Target made;
    made.measure = measure;
    made.side = side;
    made.value = value;
    made.agreedOn = month(2);
    made.by = month(6);
    return made;
}

TargetProgress progressOf(const Target& wished, const std::vector<Visit>& visits, QDate day = today)
{
    const records::Patient patient = examples::patient(u"parkinson"_s); // beyond error: 0.18 m/s
    const records::Judging judging;
    return judging::targetProgress(wished, {visits, patient, book(), judging}, day);
}

class TestTargetProgress : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void itIsReachedBeyondErrorWhereTheChangeSinceItWasAgreedIs()
    {
        const auto progress = progressOf(target(1.0), {walked(1, 0.7), walked(2, 0.8), walked(3, 1.0)});
        QCOMPARE(progress.state, TargetState::ReachedBeyondError);
        QCOMPARE(progress.now->visit.text, u"v3"_s);
        QCOMPARE(progress.since->reference.visit.text, u"v2"_s); // the last up to the day, not the first
        QVERIFY(!progress.isOverdue);
    }

    void onlyWhatIsAgreedByTheDayAndStillLookedAtIsJudged()
    {
        const records::Patient patient = examples::patient(u"parkinson"_s);
        const std::vector<Visit> visits{walked(1, 0.7), walked(2, 0.8), walked(3, 1.0)};
        const judging::Ground ground{visits, patient, book(), {}};
        const Target first = target(1.0);
        Target changed = target(1.2);
        changed.agreedOn = month(3);
        const auto at = [&](const std::vector<Target>& all, QDate day) {
            std::vector<double> values;
            for (const TargetProgress& each : judging::targetsAt(all, ground, day))
                values.push_back(each.target.value);
            return values;
        };
        QCOMPARE(at({first, changed}, month(2).addDays(-1)), std::vector<double>());
        QCOMPARE(at({first, changed}, month(2)), std::vector<double>{1.0});
        QCOMPARE(at({first, changed}, month(3)), std::vector<double>{1.2});
        Target dropped = changed;
        dropped.droppedFor = u"moved away"_s;
        QCOMPARE(at({first, changed, dropped}, month(3)), std::vector<double>());
    }

    void itIsReachedWithinErrorWhereTheChangeIsNot()
    {
        const auto progress = progressOf(target(0.9), {walked(2, 0.8), walked(3, 0.98)});
        QCOMPARE(progress.state, TargetState::ReachedWithinError);
        QCOMPARE(progress.since->verdict, Verdict::WithinError);
    }

    void orWhereNothingComparableIsFromBefore()
    {
        auto progress = progressOf(target(0.9), {walked(2, 0.5, withStick), walked(3, 1.2)});
        QCOMPARE(progress.state, TargetState::ReachedWithinError);
        QVERIFY(!progress.since);
        progress = progressOf(target(0.9), {walked(3, 0.5), walked(4, 1.2)});
        QCOMPARE(progress.state, TargetState::ReachedWithinError);
        QVERIFY(!progress.since);
    }

    void orWhereItWasReachedWhenItWasAgreed()
    {
        const auto progress = progressOf(target(0.9), {walked(1, 0.5), walked(2, 1.2)});
        QCOMPARE(progress.state, TargetState::ReachedWithinError);
        QVERIFY(!progress.since);
    }

    void orWhereItWasLostMeanwhileAndStillHolds()
    {
        const auto progress = progressOf(target(0.9), {walked(2, 1.4), walked(3, 1.0)});
        QCOMPARE(progress.state, TargetState::ReachedWithinError);
        QCOMPARE(progress.since->verdict, Verdict::Worse);
    }

    void theLastComparableIsTaken()
    {
        const auto progress = progressOf(
            target(1.0), {walked(1, 0.7), walked(2, 0.9, withStick), walked(3, 0.9), walked(4, 1.0)});
        QCOMPARE(progress.since->reference.visit.text, u"v1"_s);
        QCOMPARE(progress.state, TargetState::ReachedBeyondError);
    }

    void anEqualResultReachesIt()
    {
        QCOMPARE(progressOf(target(0.3), {walked(3, 0.1 + 0.2)}).state, TargetState::ReachedWithinError);
        QCOMPARE(progressOf(target(0.1 + 0.2), {walked(3, 0.3)}).state, TargetState::ReachedWithinError);
        QCOMPARE(progressOf(target(0.31), {walked(3, 0.3)}).state, TargetState::NotReached);
    }

    void itIsOverdueOnTheDayAfter()
    {
        const std::vector visits{walked(3, 0.8)};
        QVERIFY(!progressOf(target(1.0), visits, month(6)).isOverdue);
        QVERIFY(progressOf(target(1.0), visits, month(6).addDays(1)).isOverdue);
        Target open = target(1.0);
        open.by.reset();
        QVERIFY(!progressOf(open, visits).isOverdue);
    }

    void withoutAResultNothingIsSeen()
    {
        auto progress = progressOf(target(1.0), {}, month(3));
        QCOMPARE(progress.state, TargetState::NotSeen);
        QVERIFY(!progress.isOverdue && !progress.now);
        const records::Finding refused =
            finding(speed, values::Missing{values::Absence::Refused, u"tired"_s});
        progress = progressOf(target(1.0), {visit(3, refused)});
        QCOMPARE(progress.state, TargetState::NotSeen);
        QVERIFY(progress.isOverdue);
    }

    void unableDoesNotReachIt()
    {
        const records::Finding unable = finding(speed, examples::unable());
        QCOMPARE(progressOf(target(0.5), {walked(3, 0.8), visit(4, unable)}).state, TargetState::NotReached);
        const auto able = progressOf(target(0.5), {visit(2, unable), walked(3, 0.8)});
        QCOMPARE(able.state, TargetState::ReachedWithinError);
        QCOMPARE(able.since->verdict, Verdict::BecameAble);
    }

    void lessMayBeBetterButNotAtTheCap()
    {
        const auto placed = [](double seconds, bool capReached = false) {
            records::Finding found = finding(peg, Quantity{seconds, Unit::Second}, Side::Left);
            found.capReached = capReached;
            return found;
        };
        const Target wished = target(40, peg, Side::Left);
        QCOMPARE(progressOf(wished, {visit(3, placed(40))}).state, TargetState::ReachedWithinError);
        QCOMPARE(progressOf(wished, {visit(3, placed(41))}).state, TargetState::NotReached);
        QCOMPARE(progressOf(target(300, peg, Side::Left), {visit(3, placed(300, true))}).state,
                 TargetState::NotReached);
        QCOMPARE(progressOf(target(40, peg, Side::Right), {visit(3, placed(40))}).state,
                 TargetState::NotSeen);
    }

    void aGradeIsReachedButNoErrorJudgesIt()
    {
        const auto graded = [](int step) {
            return finding(u"finger-nose"_s, values::Grade{step}, Side::Right);
        };
        const Target wished = target(1, u"finger-nose"_s, Side::Right);
        const auto progress = progressOf(wished, {visit(2, graded(3)), visit(3, graded(1))});
        QCOMPARE(progress.state, TargetState::ReachedWithinError);
        QCOMPARE(progress.since->verdict, Verdict::StepBetter);
        QCOMPARE(progressOf(wished, {visit(3, graded(2))}).state, TargetState::NotReached);
    }

    void theOwnScatterIsNoKnownError()
    {
        const QString tandem = u"tandem-steps"_s;
        std::vector<Visit> visits;
        for (const auto& [number, steps] : {std::pair(1, 3.0), {2, 4.0}, {3, 3.0}, {4, 4.0}, {5, 10.0}})
            visits.push_back(visit(number, finding(tandem, Quantity{steps, Unit::Steps})));
        const auto change = judging::latestChanges(visits, examples::patient(u"parkinson"_s), book()).front();
        QCOMPARE(change.previous->tier, judging::Tier::OwnScatter);
        QCOMPARE(change.previous->verdict, Verdict::Better);
        Target wished = target(8, tandem);
        wished.agreedOn = month(4);
        const auto progress = progressOf(wished, visits);
        QCOMPARE(progress.state, TargetState::ReachedWithinError);
        QCOMPARE(progress.since->verdict, Verdict::StepBetter);
    }

    void whatIsNoLongerLookedAtIsNeverOverdue()
    {
        Target dropped = target(2.0);
        dropped.droppedFor = u"moved away"_s;
        const auto progress = progressOf(dropped, {walked(3, 0.8)});
        QCOMPARE(progress.state, TargetState::NoLongerLookedAt);
        QVERIFY(!progress.isOverdue);
    }

    void anUnknownMeasureIsNeverSeen()
    {
        QCOMPARE(progressOf(target(1, u"no-such"_s), {walked(3, 0.8)}).state, TargetState::NotSeen);
    }

    void noVerdictChanges()
    {
        const std::vector visits{walked(1, 0.7), walked(2, 0.8), walked(3, 1.0)};
        const records::Patient patient = examples::patient(u"parkinson"_s);
        const auto change = judging::latestChanges(visits, patient, book()).front();
        QCOMPARE(progressOf(target(1.0), visits).since->verdict, change.previous->verdict);
    }

    void everyStateHasACodeOfItsOwn()
    {
        std::set<QString> codes;
        for (int state = 0; state <= int(TargetState::NoLongerLookedAt); ++state)
            codes.insert(code(TargetState(state)));
        QCOMPARE(codes.size(), size_t(5));
    }
};

HOUSE_TEST(TestTargetProgress)

} // namespace test_target_progress

#include "test_target_progress.moc"
