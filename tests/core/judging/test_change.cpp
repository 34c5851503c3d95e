#include "core/judging/change.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_change
{

using examples::finding;
using examples::visit;
using judging::Change;
using judging::Verdict;
using records::Conditions;
using records::Side;
using records::Visit;
using values::Quantity;
using values::Unit;

const QString speed = u"gait-speed-comfortable"_s;
const QString walkTime = u"ten-metre-walk-time-comfortable"_s;
const Conditions unaided = {{u"aid"_s, u"none"_s}, {u"distance_m"_s, u"10"_s}, {u"medication"_s, u"on"_s}};
const Conditions withStick = {{u"aid"_s, u"stick"_s}, {u"distance_m"_s, u"10"_s}, {u"medication"_s, u"on"_s}};

const catalogue::Catalogue& book()
{
    static const catalogue::Catalogue made = examples::catalogue();
    return made;
}

QDate month(int number)
{
    return {2026, number, 12};
}

Visit walked(int number, double metresPerSecond, const Conditions& conditions = unaided)
{
    return visit(u"v%1"_s.arg(number), month(number),
                 {finding(speed, Quantity{metresPerSecond, Unit::MetrePerSecond})}, conditions);
}

Visit couldNot(int number, const Conditions& conditions = unaided)
{
    return visit(u"v%1"_s.arg(number), month(number), {finding(speed, examples::unable())}, conditions);
}

Change latest(const std::vector<Visit>& visits, const QString& population = u"parkinson"_s)
{
    const auto changes = judging::latestChanges(visits, examples::patient(population), book());
    return changes.empty() ? Change() : changes.front();
}

QString ofVisit(const std::optional<judging::Comparison>& comparison)
{
    return comparison ? comparison->reference.visit.text : QString();
}

class TestChange : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void previousIsTheLastComparableAndBaselineTheFirst();
    void whereNoneIsComparableTheLastAndFirstAreNamed();
    void aFirstVisitHasNothingToBeHeldAgainst();
    void unableVisitsCount();
    void whatWasNotTriedDoesNotCount();
    void aChosenVisitIsComparedBesides();
    void changesComeInCatalogueOrder();
    void laterVisitsAreNotLookedAt();
    void theOrderOfTheVisitsGivenDoesNotMatter();
    void theLevelOfABandIsThatOfTheReferenceVisit();
    void theLevelsAreThoseOfTheVisitAndTheMeasuresOwnRows();
    void theBestIsTheFirstOfEqualNumbersAndOfWhatHasADirection();
    void addingAVisitThatIsNotComparableChangesNothing();
    void theLastComparableIsFoundForAForm();
    void eachStageIsToldAsAtItsVisit();
    void theResultOfAVisitIsItsOwnOrTheLastBefore();
    void upToTheReferenceNothingIsHeld();
    void theFirstTwoAreHeldBehindThem();
};

void TestChange::previousIsTheLastComparableAndBaselineTheFirst()
{
    const Change change = latest({walked(1, 0.6, withStick), walked(2, 0.7), walked(3, 0.8), walked(4, 0.9),
                                  walked(5, 0.5, withStick), walked(6, 1.0)});
    QCOMPARE(ofVisit(change.previous), u"v4"_s);
    QCOMPARE(ofVisit(change.baseline), u"v2"_s);
    QCOMPARE(change.previous->verdict, Verdict::WithinError);
    QCOMPARE(change.baseline->verdict, Verdict::Better);
}

void TestChange::whereNoneIsComparableTheLastAndFirstAreNamed()
{
    const Change change = latest({walked(1, 0.6, withStick), walked(2, 0.7, withStick), walked(3, 0.8)});
    QCOMPARE(ofVisit(change.previous), u"v2"_s);
    QCOMPARE(ofVisit(change.baseline), u"v1"_s);
    QCOMPARE(change.previous->verdict, Verdict::NotComparable);
    QCOMPARE(change.baseline->verdict, Verdict::NotComparable);
}

void TestChange::aFirstVisitHasNothingToBeHeldAgainst()
{
    const Change change = latest({walked(1, 0.6)});
    QCOMPARE(change.now.visit.text, u"v1"_s);
    QVERIFY(!change.previous && !change.baseline && !change.chosen);
    QVERIFY(judging::latestChanges({}, examples::patient(u"stroke"_s), book()).empty());
}

void TestChange::unableVisitsCount()
{
    QCOMPARE(latest({walked(1, 0.6), couldNot(2)}).previous->verdict, Verdict::BecameUnable);
    const Change able = latest({walked(1, 0.6), couldNot(2), walked(3, 0.9)});
    QCOMPARE(able.previous->verdict, Verdict::BecameAble);
    QCOMPARE(able.baseline->verdict, Verdict::Better);
}

void TestChange::whatWasNotTriedDoesNotCount()
{
    const auto notTried = [](int number) {
        return visit(u"v%1"_s.arg(number), month(number),
                     {finding(speed, values::Missing{values::Absence::Refused, {}})}, unaided);
    };
    const Change change = latest({notTried(1), walked(2, 0.6), notTried(3), walked(4, 0.9), notTried(5)});
    QCOMPARE(change.now.visit.text, u"v4"_s);
    QCOMPARE(ofVisit(change.previous), u"v2"_s);
    QCOMPARE(ofVisit(change.baseline), u"v2"_s);
    QVERIFY(judging::latestChanges({notTried(1)}, examples::patient(u"parkinson"_s), book()).empty());
}

void TestChange::aChosenVisitIsComparedBesides()
{
    const std::vector<Visit> visits = {walked(1, 0.6), walked(2, 0.7, withStick), walked(3, 0.8),
                                       walked(4, 0.9)};
    const auto at = [&](const QString& reference) {
        return judging::changesAt({u"v4"_s}, records::VisitId{reference}, visits,
                                  examples::patient(u"parkinson"_s), book())
            .front();
    };
    QCOMPARE(ofVisit(at(u"v1"_s).chosen), u"v1"_s);
    QCOMPARE(at(u"v1"_s).chosen->verdict, Verdict::Better);
    QCOMPARE(at(u"v2"_s).chosen->verdict, Verdict::NotComparable);
    QVERIFY(!at(u"v4"_s).chosen);
    QVERIFY(!at(u"elsewhere"_s).chosen);
    QCOMPARE(ofVisit(at(u"v1"_s).previous), u"v3"_s);
}

void TestChange::changesComeInCatalogueOrder()
{
    const Visit now = visit(u"v2"_s, month(2),
                            {finding(walkTime, Quantity{12.5, Unit::Second}),
                             finding(u"finger-nose"_s, values::Grade{1}, Side::Left),
                             finding(u"finger-nose"_s, values::Grade{2}, Side::Right),
                             finding(u"tandem-steps"_s, values::Missing{values::Absence::NotAsked, {}})},
                            unaided);
    const auto changes = judging::changesAt(now.id, std::nullopt, {walked(1, 0.6), now},
                                            examples::patient(u"stroke"_s), book());
    QStringList order;
    for (const Change& change : changes)
        order += change.measure + u'/' + records::code(change.side);
    QCOMPARE(order, (QStringList{u"finger-nose/right"_s, u"finger-nose/left"_s, speed + u"/none"_s,
                                 walkTime + u"/none"_s}));
    QCOMPARE(*changes[2].previous->difference, 0.8 - 0.6); // 10 m in 12.5 s against the speed entered before
}

void TestChange::laterVisitsAreNotLookedAt()
{
    const std::vector<Visit> visits = {walked(1, 0.6), walked(2, 0.7), walked(3, 0.8)};
    const auto changes =
        judging::changesAt({u"v2"_s}, std::nullopt, visits, examples::patient(u"parkinson"_s), book());
    QCOMPARE(changes.size(), 1U);
    QCOMPARE(ofVisit(changes[0].previous), u"v1"_s);
    QCOMPARE(ofVisit(changes[0].baseline), u"v1"_s);
}

void TestChange::theOrderOfTheVisitsGivenDoesNotMatter()
{
    const Change change = latest({walked(3, 0.8), walked(1, 0.6), walked(2, 0.7)});
    QCOMPARE(change.now.visit.text, u"v3"_s);
    QCOMPARE(ofVisit(change.previous), u"v2"_s);
    QCOMPARE(ofVisit(change.baseline), u"v1"_s);
}

void TestChange::theLevelOfABandIsThatOfTheReferenceVisit()
{
    // Hosoi 2023: walk time 2.83 s from 0.4 to 0.8 m/s, 1.58 s from 0.8 m/s; the speed comes from the same
    // walk.
    const auto timed = [](int number, double seconds) {
        return visit(u"v%1"_s.arg(number), month(number),
                     {finding(walkTime, Quantity{seconds, Unit::Second})}, unaided);
    };
    const auto changes = judging::latestChanges({timed(1, 20), timed(2, 12), timed(3, 10)},
                                                examples::patient(u"stroke-chronic"_s), book());
    QCOMPARE(changes.size(), 2U);
    const Change& time = changes[1];
    QCOMPARE(time.measure, walkTime);
    QCOMPARE(time.baseline->threshold->decline, 2.83);
    QCOMPARE(time.previous->threshold->decline, 1.58);
    QCOMPARE(time.previous->verdict, Verdict::Better);
}

void TestChange::theLevelsAreThoseOfTheVisitAndTheMeasuresOwnRows()
{
    const std::vector<Visit> visits = {visit(u"v1"_s, month(1),
                                             {finding(walkTime, Quantity{10, Unit::Second}),
                                              finding(u"berg-balance"_s, Quantity{50, Unit::Score})},
                                             unaided)};
    using Levels = std::map<QString, double>;
    QCOMPARE(judging::levelsAt({u"v1"_s}, walkTime, Side::None, visits, book()), (Levels{{speed, 1.0}}));
    QCOMPARE(judging::levelsAt({u"v1"_s}, u"berg-balance"_s, Side::None, visits, book()),
             (Levels{{u"berg-balance"_s, 50}}));
    QCOMPARE(judging::levelsAt({u"v1"_s}, u"timed-up-and-go"_s, Side::None, visits, book()), Levels());
    QCOMPARE(judging::levelsAt({u"v2"_s}, walkTime, Side::None, visits, book()), Levels());
    catalogue::Catalogue more = book();
    more.thresholds.insert(more.thresholds.begin(), more.thresholds.front());
    more.thresholds.front().measure = walkTime;
    more.thresholds.front().bandOf = u"long-gone"_s;
    QCOMPARE(judging::levelsAt({u"v1"_s}, walkTime, Side::None, visits, more), (Levels{{speed, 1.0}}));
}

void TestChange::theBestIsTheFirstOfEqualNumbersAndOfWhatHasADirection()
{
    const auto timed = [](int number, std::optional<double> seconds) {
        const values::Value value =
            seconds ? values::Value(Quantity{*seconds, Unit::Second}) : examples::unable();
        return visit(u"v%1"_s.arg(number), month(number), {finding(u"timed-up-and-go"_s, value)}, unaided);
    };
    const std::vector<Visit> visits = {timed(1, 14), timed(2, 13), timed(3, {}),
                                       timed(4, 13), timed(5, 15), timed(6, 16)};
    QCOMPARE(ofVisit(latest(visits).best), u"v2"_s);
    QCOMPARE(ofVisit(latest({timed(1, {}), timed(2, 14), timed(3, {}), timed(4, 13), timed(5, 15)}).best),
             u"v4"_s);
    const auto stepped = [](int number, double rate) {
        return visit(u"v%1"_s.arg(number), month(number),
                     {finding(u"cadence"_s, Quantity{rate, Unit::StepsPerMinute})}, unaided);
    };
    QVERIFY(!latest({stepped(1, 100), stepped(2, 110), stepped(3, 105)}).best);
}

void TestChange::addingAVisitThatIsNotComparableChangesNothing()
{
    const std::vector<Visit> visits = {walked(2, 0.7), walked(4, 0.8), couldNot(6), walked(8, 0.9),
                                       walked(10, 1.0)};
    const Change before = latest(visits);
    for (const int number : {1, 3, 5, 7, 9}) {
        for (const Visit& stranger :
             {walked(number, 0.3, withStick), walked(number, 1.9, {}), couldNot(number, {})}) {
            std::vector<Visit> more = visits;
            more.push_back(stranger);
            const Change after = latest(more);
            QCOMPARE(ofVisit(after.previous), ofVisit(before.previous));
            QCOMPARE(ofVisit(after.baseline), ofVisit(before.baseline));
            QCOMPARE(after.previous->verdict, before.previous->verdict);
            QCOMPARE(after.baseline->verdict, before.baseline->verdict);
        }
    }
}

void TestChange::theLastComparableIsFoundForAForm()
{
    const auto patient = examples::patient(u"parkinson"_s);
    const auto earlier = records::history({walked(1, 0.6), walked(2, 0.7), walked(3, 0.8, withStick)}, book(),
                                          speed, Side::None);
    records::Occasion now;
    now.finding.measure = speed;
    now.conditions = unaided;
    QCOMPARE(judging::lastComparable(earlier, now, patient, book())->visit.text, u"v2"_s);
    now.conditions = withStick;
    QCOMPARE(judging::lastComparable(earlier, now, patient, book())->visit.text, u"v3"_s);
    now.visit = {u"v3"_s}; // itself
    QVERIFY(!judging::lastComparable(earlier, now, patient, book()));
    now.visit = {};
    now.conditions = {};
    QVERIFY(!judging::lastComparable(earlier, now, patient, book()));
    QVERIFY(!judging::lastComparable({}, now, patient, book()));
}

/// Where no error is known each is judged by the scatter of the visits before it, also once later ones came.
void TestChange::eachStageIsToldAsAtItsVisit()
{
    const QString walk = u"six-minute-walk"_s;
    std::vector<Visit> visits;
    for (const double metres : {300, 303, 298, 301, 299, 400, 302, 250})
        visits.push_back(visit(u"v%1"_s.arg(visits.size() + 1), month(int(visits.size()) + 1),
                               {finding(walk, Quantity{metres, Unit::Metre})}));
    const records::Patient patient = examples::patient(u"parkinson"_s);
    const records::Judging judging;
    const auto progress = judging::progress({walk, Side::None, {}, {}}, {visits, patient, book(), judging});
    QCOMPARE(progress.stages.size(), visits.size());
    QVERIFY(!progress.stages.front().held);
    for (size_t place = 1; place < visits.size(); ++place) {
        const auto then = judging::changesAt(visits[place].id, {}, visits, patient, book());
        QCOMPARE(progress.stages[place].held->verdict, then.front().baseline->verdict);
    }
    QCOMPARE(progress.stages[4].held->verdict, Verdict::WithinError);
    QCOMPARE(progress.stages[5].held->verdict, Verdict::Better);
}

void TestChange::theResultOfAVisitIsItsOwnOrTheLastBefore()
{
    const std::vector<Visit> visits = {walked(1, 0.6), walked(2, 0.7), visit(u"v3"_s, month(3), {}),
                                       walked(4, 0.9)};
    const records::Patient patient = examples::patient(u"parkinson"_s);
    const records::Judging judging;
    const auto shown = [&](std::optional<records::VisitId> id) {
        const auto progress =
            judging::progress({speed, Side::None, std::move(id), {}}, {visits, patient, book(), judging});
        return progress.change ? progress.change->now.visit.text : QString();
    };
    QCOMPARE(shown({}), u"v4"_s);
    QCOMPARE(shown(records::VisitId{u"v4"_s}), u"v4"_s);
    QCOMPARE(shown(records::VisitId{u"v3"_s}), u"v2"_s);
    QCOMPARE(shown(records::VisitId{u"v2"_s}), u"v2"_s);
    QCOMPARE(shown(records::VisitId{u"v1"_s}), u"v1"_s);
    // Of two on one day each has its own.
    std::vector<Visit> twice = {walked(1, 0.6), walked(2, 0.7)};
    twice.back().day = twice.front().day;
    const auto progress = judging::progress({speed, Side::None, records::VisitId{u"v1"_s}, {}},
                                            {twice, patient, book(), judging});
    QCOMPARE(progress.change->now.visit.text, u"v1"_s);
}

void TestChange::upToTheReferenceNothingIsHeld()
{
    const std::vector<Visit> visits = {walked(1, 0.6), walked(2, 0.7), walked(3, 0.8), walked(4, 1.0)};
    const records::Patient patient = examples::patient(u"parkinson"_s);
    const records::Judging judging;
    const auto progress = judging::progress({speed, Side::None, {}, records::VisitId{u"v2"_s}},
                                            {visits, patient, book(), judging});
    QStringList held;
    for (const judging::Stage& stage : progress.stages)
        held += ofVisit(stage.held);
    QCOMPARE(held, (QStringList{QString(), QString(), u"v2"_s, u"v2"_s}));
    QCOMPARE(ofVisit(progress.held), u"v2"_s);
}

void TestChange::theFirstTwoAreHeldBehindThem()
{
    QVERIFY(!latest({walked(1, 0.6), walked(2, 0.7)}).firstTwo);
    const auto held = latest({walked(1, 0.6), walked(2, 0.7), walked(3, 0.8)}).firstTwo;
    QVERIFY(held);
    QCOMPARE(*held->difference, 0.8 - 0.65);
    QVERIFY(!latest({walked(1, 0.6), walked(2, 0.7), walked(3, 0.8), couldNot(4)}).firstTwo);
}

HOUSE_TEST(TestChange)

} // namespace test_change

#include "test_change.moc"
