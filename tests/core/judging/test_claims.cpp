#include "core/judging/outcome.h"

#include "core/statistics/distributions.h"
#include "core/statistics/plan.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_claims
{

using judging::Change;
using judging::Comparison;
using judging::Outcome;
using judging::OutcomeKind;
using judging::Says;
using judging::Strength;
using judging::Verdict;
using records::Side;
using values::Quantity;

const QString berg = u"berg-balance"_s;
const QDate day(2026, 3, 12);

const catalogue::Catalogue& book()
{
    static const catalogue::Catalogue made = examples::catalogue();
    return made;
}

/// A number that differs beyond error, or within it, from the first comparable one.
Change changeOf(const QString& measure, Verdict verdict)
{
    Change change;
    change.measure = measure;
    change.now.day = day;
    change.now.finding = examples::finding(measure, Quantity{40, values::Unit::Score});
    Comparison held;
    held.measure = measure;
    held.verdict = verdict;
    held.strength = Strength::SeenOnce;
    held.since = day.addDays(-10);
    held.now = change.now;
    change.baseline = change.previous = held;
    change.course.run = {{{u"v1"_s}, day.addDays(-90), 50, false}, {{u"v2"_s}, day, 40, false}};
    return change;
}

judging::Trend trendOf(std::optional<Verdict> direction, Strength strength = Strength::Sustained)
{
    judging::Trend trend;
    trend.n = 3;
    trend.direction = direction;
    trend.strength = strength;
    trend.since = day.addDays(-60);
    return trend;
}

judging::Reversal turn(double z)
{
    judging::Reversal reversal;
    reversal.z = z;
    reversal.bound = 2.5;
    reversal.since = day.addDays(-20);
    return reversal;
}

Outcome outcome(const Change& change)
{
    return judging::outcomesOf({change}, book()).front();
}

/// Two-sided, as of a normal distribution.
double beyond(double z)
{
    return 2 * statistics::normalShareBelow(-z);
}

class TestClaims : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theTrendSaysSinceWhenWhereItAgrees();
    void whatGoesTheOtherWayStandsBesides();
    void theStrongestOfOneDirectionLeads();
    void theStrengthsHaveAnOrder();
    void theChanceIsThatOfTheClearestWay();
    void aTurnIsLookedForAtEveryPair();
    void theOwnScatterWidensTheChance();
    void theSizeIsInWhatJudges();
    void aSpeedIsAsSureAsItsTime();
    void onlyWhatFollowsFromOneTestIsAlignedWithIt();
    void aWordWithoutANormalOneGoesNoWay();
};

void TestClaims::theTrendSaysSinceWhenWhereItAgrees()
{
    Change change = changeOf(berg, Verdict::Worse);
    QCOMPARE(outcome(change).since, std::optional(day.addDays(-10)));
    change.course.trend = trendOf({});
    QCOMPARE(outcome(change).since, std::optional(day.addDays(-10)));
    change.course.trend = trendOf(Verdict::Worse);
    QCOMPARE(outcome(change).since, std::optional(day.addDays(-60)));
    QCOMPARE(outcome(change).claim->by, Says::FirstVisit); // one claim, whose strength the comparison has
    QCOMPARE(outcome(change).claim->strength, Strength::SeenOnce);
    change.course.trend.reset();
    change.baseline->since.reset();
    QCOMPARE(outcome(change).since, std::optional(day));
}

void TestClaims::whatGoesTheOtherWayStandsBesides()
{
    Change change = changeOf(berg, Verdict::Worse);
    change.course.trend = trendOf(Verdict::Better);
    const Outcome both = outcome(change);
    QCOMPARE(both.kind, OutcomeKind::Worse);
    QCOMPARE(both.claim->by, Says::FirstVisit);
    QCOMPARE(both.since, std::optional(day.addDays(-10)));
    QCOMPARE(both.besides, std::optional(judging::Claim{Says::Trend, Verdict::Better, Strength::Sustained,
                                                        day.addDays(-60)}));
    change = changeOf(berg, Verdict::WithinError);
    QCOMPARE(outcome(change).kind, OutcomeKind::AsBefore);
    change.course.trend = trendOf(Verdict::Better);
    QCOMPARE(outcome(change).kind, OutcomeKind::Better);
    QCOMPARE(outcome(change).claim->by, Says::Trend);
    QVERIFY(!outcome(change).besides);
}

void TestClaims::theStrongestOfOneDirectionLeads()
{
    Change change = changeOf(berg, Verdict::Worse);
    change.course.trend = trendOf({});
    change.course.trend->reversal = turn(-3);
    QCOMPARE(outcome(change).claim->by, Says::Reversal); // seen once by the trend, once by the first visit
    change.baseline->strength = Strength::TrendSeenOnce;
    QCOMPARE(outcome(change).claim->by, Says::FirstVisit); // of equal ones the first
    change.baseline->strength = Strength::Confirmed;
    QCOMPARE(outcome(change).claim->by, Says::FirstVisit);
    change.course.trend->reversal->strength = Strength::Sustained;
    QCOMPARE(outcome(change).claim->by, Says::Reversal);
}

void TestClaims::theStrengthsHaveAnOrder()
{
    std::vector<Outcome> outcomes;
    for (const Strength strength :
         {Strength::SeenOnce, Strength::Sustained, Strength::TrendSeenOnce, Strength::Confirmed}) {
        outcomes.emplace_back();
        outcomes.back().kind = OutcomeKind::Worse;
        outcomes.back().claim = judging::Claim{Says::FirstVisit, Verdict::Worse, strength, day};
    }
    QCOMPARE(judging::byWeight(outcomes), (std::vector<size_t>{1, 3, 2, 0}));
}

void TestClaims::theChanceIsThatOfTheClearestWay()
{
    Change change = changeOf(berg, Verdict::Worse);
    QVERIFY(!outcome(change).chance);
    change.baseline->threshold = judging::Applied{};
    QCOMPARE(*outcome(change).chance, 1 - judging::judgedAt); // what is beyond it is so in one of twenty
    change.baseline->verdict = Verdict::WithinError;
    QCOMPARE(*outcome(change).chance, 1.0);
    change.baseline->z = -2.5;
    QCOMPARE(*outcome(change).chance, beyond(2.5));
    change.course.trend = trendOf({});
    change.course.trend->error = judging::RunError{};
    QCOMPARE(*outcome(change).chance, beyond(2.5)); // an error without a slope looked at nothing
    change.course.trend->z = 3;
    QVERIFY(std::abs(*outcome(change).chance - 2 * beyond(3)) < 1e-12);
    change.course.trend->orderP = 0.001;
    QVERIFY(std::abs(*outcome(change).chance - 0.003) < 1e-12);
    change.baseline->z = change.course.trend->z = 0.1;
    change.course.trend->orderP = 0.9;
    QCOMPARE(*outcome(change).chance, 1.0);
}

void TestClaims::aTurnIsLookedForAtEveryPair()
{
    Change change = changeOf(berg, Verdict::WithinError);
    change.course.trend = trendOf({});
    judging::Trend& trend = *change.course.trend;
    trend.error = judging::RunError{};
    trend.z = 3;
    trend.n = statistics::firstTurn - 1;
    QCOMPARE(*outcome(change).chance, beyond(3));
    trend.n = statistics::firstTurn;
    QVERIFY(std::abs(*outcome(change).chance - 2 * beyond(3)) < 1e-12);
    trend.reversal = turn(-4);
    QVERIFY(std::abs(*outcome(change).chance - 2 * beyond(4)) < 1e-12); // one pair before the last two
    trend.n = statistics::firstTurn + 2;
    QVERIFY(std::abs(*outcome(change).chance - 2 * 3 * beyond(4)) < 1e-12);
}

void TestClaims::theOwnScatterWidensTheChance()
{
    Change change = changeOf(berg, Verdict::WithinError);
    change.course.trend = trendOf({});
    change.course.trend->z = -2.763;
    change.course.trend->error = judging::RunError{};
    change.course.trend->error->own = statistics::Scatter{};
    change.course.trend->error->own->degrees = 8;
    // NIST/SEMATECH table 1.3.6.7.2, 28 degrees, 0.995: 2.763. 20 degrees stand for the published error.
    QVERIFY2(std::abs(*outcome(change).chance - 0.01) < 1e-5,
             qPrintable(QString::number(*outcome(change).chance, 'g', 10)));
    change.course.trend.reset();
    change.baseline->own = judging::OwnScatter{};
    change.baseline->own->visits = 5;
    change.baseline->own->t = -4;
    const double chance = statistics::scatterShareBeyond(5, 4);
    QVERIFY(chance > 0 && chance < 0.05);
    QCOMPARE(*outcome(change).chance, chance);
}

void TestClaims::theSizeIsInWhatJudges()
{
    Change change = changeOf(berg, Verdict::Worse);
    QCOMPARE(outcome(change).size, 0.0);
    change.baseline->own = judging::OwnScatter{};
    change.baseline->own->visits = 5;
    change.baseline->own->t = -6;
    change.baseline->own->limit = 4;
    QCOMPARE(outcome(change).size, 1.5);
    change.course.trend = trendOf({});
    change.course.trend->reversal = turn(-5);
    QCOMPARE(outcome(change).claim->by, Says::Reversal);
    QCOMPARE(outcome(change).size, 2.0);
}

/// A speed that is sure, the time it follows from that is not, and a stranger that stays unsure.
struct Walk {
    QString speed = u"gait-speed-comfortable"_s;
    std::vector<Change> changes = {changeOf(berg, Verdict::Worse), changeOf(speed, Verdict::Worse),
                                   changeOf(u"ten-metre-walk-time-comfortable"_s, Verdict::Worse)};
    catalogue::Catalogue catalogue = book();

    Walk()
    {
        changes[0].baseline->z = changes[2].baseline->z = -0.5;
        changes[1].baseline->z = -5;
        changes[1].now.computedFrom = base::said("10 m in %1").arg(u"12 s"_s);
    }
    /// "stranger speed time", of those that are sure.
    QString sure() const
    {
        QStringList names;
        const auto outcomes = judging::outcomesOf(changes, catalogue);
        for (size_t place = 0; place < outcomes.size(); ++place) {
            if (outcomes[place].isSure)
                names += QStringList{u"stranger"_s, u"speed"_s, u"time"_s}[qsizetype(place)];
        }
        return names.join(u' ');
    }
};

void TestClaims::aSpeedIsAsSureAsItsTime()
{
    QCOMPARE(Walk().sure(), u"speed time"_s);
    Walk other;
    std::swap(other.changes[1].baseline->z, other.changes[2].baseline->z);
    QCOMPARE(other.sure(), u"speed time"_s);
    Walk first; // among the results
    first.changes.erase(first.changes.begin());
    for (const Outcome& each : judging::outcomesOf(first.changes, first.catalogue))
        QVERIFY(each.isSure);
}

void TestClaims::onlyWhatFollowsFromOneTestIsAlignedWithIt()
{
    Walk entered;
    entered.changes[1].now.computedFrom = {};
    QCOMPARE(entered.sure(), u"speed"_s);
    Walk otherWay;
    otherWay.changes[2].baseline->verdict = Verdict::Better;
    QCOMPARE(otherWay.sure(), u"speed"_s);
    Walk quiet;
    quiet.changes[2].baseline->verdict = Verdict::WithinError;
    QCOMPARE(quiet.sure(), u"speed"_s);
    Walk otherSide;
    otherSide.changes[2].side = Side::Right;
    QCOMPARE(otherSide.sure(), u"speed"_s);
    Walk alone;
    alone.changes.pop_back();
    QCOMPARE(alone.sure(), u"speed"_s);
    Walk sum;
    std::ranges::find(sum.catalogue.measures, sum.speed, &catalogue::Measure::id)->computed = {
        catalogue::Computing::SumOfItems, {u"ten-metre-walk-time-comfortable"_s, berg}};
    QCOMPARE(sum.sure(), u"speed"_s);
    Walk gone;
    gone.changes[0].measure = u"long-gone"_s;
    QCOMPARE(gone.sure(), u"speed time"_s);
}

void TestClaims::aWordWithoutANormalOneGoesNoWay()
{
    catalogue::Measure drift = *book().measure(u"pronator-drift"_s);
    Change change = changeOf(drift.id, Verdict::Changed);
    change.baseline->reference.finding.value = values::Choice{u"none"_s};
    change.now.finding.value = values::Choice{u"pronation"_s};
    const Outcome changed = outcome(change);
    QCOMPARE(changed.kind, OutcomeKind::Changed);
    QCOMPARE(judging::wayOf(changed, change, drift), std::optional(Verdict::Worse));
    QVERIFY(!judging::wayOf(changed, Change(), drift));
    Change again = change; // from one word that is not normal to another
    again.baseline->reference.finding.value = values::Choice{u"sinking"_s};
    QVERIFY(!judging::wayOf(changed, again, drift));
    drift.options.front().key = u"steady"_s;
    QVERIFY(!judging::wayOf(changed, change, drift));
    change.previous.reset();
    QVERIFY(judging::decidingOf(change) == nullptr);
}

HOUSE_TEST(TestClaims)

} // namespace test_claims

#include "test_claims.moc"
