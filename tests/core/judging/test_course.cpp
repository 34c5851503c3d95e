#include "core/judging/change.h"
#include "core/judging/run_trend.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <cmath>

using namespace Qt::StringLiterals;

namespace test_course
{

using examples::finding;
using examples::visit;
using judging::Change;
using judging::Strength;
using judging::Verdict;
using records::Visit;
using values::Quantity;
using values::Unit;

const QString speed = u"gait-speed-comfortable"_s;
const records::Conditions unaided = {
    {u"aid"_s, u"none"_s}, {u"distance_m"_s, u"10"_s}, {u"medication"_s, u"on"_s}};
constexpr double standardError =
    0.18 / (1.959963984540054 * 1.4142135623730951); // of Steffen & Seney's 0.18 m/s

QDate afterDays(int days)
{
    return QDate(2026, 1, 12).addDays(days);
}

/// One visit every so many days.
std::vector<Visit> walked(const std::vector<double>& speeds, int days = 30)
{
    std::vector<Visit> visits;
    for (const double metresPerSecond : speeds)
        visits.push_back(visit(u"v%1"_s.arg(visits.size() + 1), afterDays(int(visits.size()) * days),
                               {finding(speed, Quantity{metresPerSecond, Unit::MetrePerSecond})}, unaided));
    return visits;
}

/// A scale in quarters of a year; the limit is 5 points.
std::vector<Visit> scored(const std::vector<double>& points)
{
    std::vector<Visit> visits;
    for (const double score : points)
        visits.push_back(visit(u"v%1"_s.arg(visits.size() + 1), afterDays(int(visits.size()) * 91),
                               {finding(u"berg-balance"_s, Quantity{score, Unit::Score})}, unaided));
    return visits;
}

Change latest(const std::vector<Visit>& visits, const catalogue::Catalogue& book = examples::catalogue(),
              const records::Judging& judging = {}, const QString& population = u"parkinson"_s)
{
    const auto changes = judging::latestChanges(visits, examples::patient(population), book, judging);
    return changes.empty() ? Change() : changes.front();
}

catalogue::Catalogue confirmingAfter(int days)
{
    catalogue::Catalogue book = examples::catalogue();
    for (catalogue::Population& population : book.populations)
        population.confirmAfterDays = days;
    return book;
}

class TestCourse : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aChangeSeenOnceIsPossible();
    void aChangeStillThereAfterTheIntervalIsConfirmed();
    void theIntervalOfThePopulationCounts();
    void aReturnInBetweenStartsAnew();
    void theRowOfALevelIsThatOfItsTimeUpToNow();
    void theConfirmedLevelBecomesAReference();
    void aSlowDeclineIsSustainedBeforeTwoVisitsShowIt();
    void theFlagSaysHowOftenItsRuleIsWrong();
    void theBestAndTheMeanOfTheFirstTwoAreReferences();
    void theWeightOfADifferenceFollowsFromTheError();
    void theWeightOnTheLogScaleIsOfTheRatio();
    void meansOfSingleTrialsNarrowTheLimit();
    void aTrendNeedsThreeVisits();
    void withoutAnEvenErrorTheOrderJudges();
    void fewVisitsCannotBeSignificant();
    void gradesHaveNoSlope();
    void ofSeveralResultsOnOneDayTheLastCounts();
    void theClinicSaysHowStrictlyItLooks();
    void everyLookHasItsOwnBound();
    void aTrendOfTheFirstLookMayHaveFallen();
    void percentRowsAreJudgedOnTheLogarithm();
    void aTrendIsSeenOnceBeforeItIsSustained();
    void aTrendSpeaksForNoVerdictOfTheOtherDirection();
    void onlyThePresentLookCounts();
    void oneBadVisitSustainsNothing();
    void threeDaysSustainNothing();
    void whoWasUnableInBetweenBreaksAConfirmation();
    void whereTheErrorIsNotKnownNoRateIsGiven();
    void aRelapseIsAReversal();
    void theErrorIsDrawnTowardTheOwnScatter();
    void gradesThatFallInOrderAreATrend();
};

void TestCourse::aChangeSeenOnceIsPossible()
{
    const Change change = latest(walked({1.00, 0.98, 0.80}));
    QCOMPARE(change.baseline->verdict, Verdict::Worse);
    QCOMPARE(change.baseline->strength, Strength::SeenOnce);
    QCOMPARE(change.course.confirmations.size(), size_t(0));
    QCOMPARE(latest(walked({1.00, 0.98})).baseline->strength, Strength::None);
}

void TestCourse::aChangeStillThereAfterTheIntervalIsConfirmed()
{
    const Change change = latest(walked({1.00, 0.80, 0.79}));
    QCOMPARE(change.baseline->strength, Strength::Confirmed);
    QCOMPARE(change.previous->strength, Strength::None);
    QCOMPARE(change.course.confirmations.size(), size_t(1));
    const judging::Confirmation& found = change.course.confirmations.front();
    QCOMPARE(found.reference.visit.text, u"v1"_s);
    QCOMPARE(found.seen.visit.text, u"v2"_s);
    QCOMPARE(found.confirmed.visit.text, u"v3"_s);
    QCOMPARE(found.verdict, Verdict::Worse);
}

void TestCourse::theIntervalOfThePopulationCounts()
{
    const auto strength = [](int after) {
        return latest(walked({1.00, 0.80, 0.79}), confirmingAfter(after)).baseline->strength;
    };
    QCOMPARE(strength(30), Strength::Confirmed);
    QCOMPARE(latest(walked({1.00, 0.80, 0.79}), confirmingAfter(30)).course.confirmations.size(), size_t(1));
    QVERIFY(latest(walked({1.00, 0.80, 0.79}), confirmingAfter(31)).course.confirmations.empty());
    QCOMPARE(strength(31), Strength::SeenOnce);
    // Without an interval of its own, a week (common practice, no source).
    QCOMPARE(latest(walked({1.00, 0.80, 0.79}, 7)).baseline->strength, Strength::Confirmed);
    QCOMPARE(latest(walked({1.00, 0.80, 0.79}, 6)).baseline->strength, Strength::SeenOnce);
    // 12 or 24 weeks in multiple sclerosis, as the clinic's composite asks.
    const Change inTrial = latest(walked({1, 1, 1}), confirmingAfter(84), {8, 24}, u"multiple-sclerosis"_s);
    QCOMPARE(inTrial.course.confirmAfterDays, 168);
}

void TestCourse::aReturnInBetweenStartsAnew()
{
    const Change change = latest(walked({1.00, 0.80, 0.95, 0.79}));
    QCOMPARE(change.baseline->strength, Strength::SeenOnce);
    QVERIFY(change.course.confirmations.empty());
    QVERIFY(latest(walked({1.00, 0.80, 1.25, 0.79})).course.confirmations.empty());
    QVERIFY(latest(walked({1.00, 0.99, 0.98, 0.97})).course.confirmations.empty());
}

/// From every level on the row whose interval is nearest to the time up to now.
void TestCourse::theRowOfALevelIsThatOfItsTimeUpToNow()
{
    catalogue::Catalogue book = examples::catalogue();
    const auto year = std::ranges::find(book.thresholds, u"speed-pd"_s, &catalogue::Threshold::id);
    year->daysLow = year->daysHigh = 370;
    book.thresholds.push_back(*year);
    book.thresholds.back().id = u"speed-pd-short"_s;
    book.thresholds.back().daysLow = book.thresholds.back().daysHigh = 60;
    book.thresholds.back().improvement = book.thresholds.back().decline = 0.30;
    std::vector<Visit> visits = walked({1.00, 0.60, 0.60, 0.85, 0.85});
    visits[3].day = afterDays(400);
    visits[4].day = afterDays(430);
    const Change change = latest(visits, book);
    QCOMPARE(change.course.confirmations.size(), size_t(2));
    QCOMPARE(change.course.confirmations.back().verdict, Verdict::Better);
}

void TestCourse::theConfirmedLevelBecomesAReference()
{
    const Change change = latest(walked({1.00, 0.75, 0.70, 0.95}));
    QCOMPARE(change.baseline->verdict, Verdict::WithinError);
    QCOMPARE(change.lastConfirmed->reference.visit.text, u"v3"_s);
    QCOMPARE(change.lastConfirmed->verdict, Verdict::Better);
    const Change none = latest(walked({1.00, 0.75, 0.95, 0.95}));
    QVERIFY(!none.lastConfirmed);
    const Change twice = latest(walked({1.00, 0.75, 0.70, 0.95, 0.96, 0.97}));
    QCOMPARE(twice.course.confirmations.size(), size_t(2));
    QCOMPARE(twice.course.confirmations.back().verdict, Verdict::Better);
    QCOMPARE(twice.lastConfirmed->reference.visit.text, u"v5"_s);
}

void TestCourse::aSlowDeclineIsSustainedBeforeTwoVisitsShowIt()
{
    std::vector<double> speeds;
    for (int step = 0; step < 6; ++step)
        speeds.push_back(1.2 - 0.54 * standardError * step);
    const Change change = latest(walked(speeds));
    QCOMPARE(change.baseline->verdict, Verdict::WithinError);
    QVERIFY(!change.course.trend->direction);
    speeds.insert(speeds.end(), {speeds.back() - 0.02, speeds.back() - 0.07, speeds.back() - 0.09});
    const Change later = latest(walked(speeds));
    QCOMPARE(later.course.trend->direction, std::optional(Verdict::Worse));
    QCOMPARE(later.course.trend->strength, Strength::Sustained);
    QVERIFY(std::abs(*later.course.trend->z) > *later.course.trend->bound);
    QVERIFY(later.course.trend->since < later.now.day);
}

void TestCourse::theFlagSaysHowOftenItsRuleIsWrong()
{
    const auto rate = [](statistics::FlagRule rule, int visits) {
        return *statistics::falseFlagRate(rule, visits);
    };
    const Change possible = latest(walked({1.00, 0.98, 0.80}));
    QCOMPARE(possible.baseline->raised->rule, statistics::FlagRule::FirstVisit);
    QCOMPARE(possible.baseline->raised->falseFlagRate, rate(statistics::FlagRule::FirstVisit, 3));
    QCOMPARE(possible.best->raised->rule, statistics::FlagRule::BestVisit);
    QVERIFY(!possible.previous->raised == (possible.previous->strength == Strength::None));
    const Change confirmed = latest(walked({1.00, 0.80, 0.79}));
    QCOMPARE(confirmed.baseline->raised->rule, statistics::FlagRule::Confirmed);
    QCOMPARE(confirmed.baseline->raised->falseFlagRate, rate(statistics::FlagRule::Confirmed, 3));
    QCOMPARE(confirmed.baseline->raised->visits, 3);
}

void TestCourse::theBestAndTheMeanOfTheFirstTwoAreReferences()
{
    const Change change = latest(walked({1.00, 1.10, 1.30, 1.30, 1.04}));
    QCOMPARE(change.best->reference.visit.text, u"v3"_s);
    QCOMPARE(change.best->verdict, Verdict::Worse);
    // √((1/2 + 1/1)/2) of the single limit.
    QVERIFY(std::abs(*change.firstTwo->difference - -0.01) < 1e-12);
    QVERIFY(std::abs(change.firstTwo->threshold->decline - 0.18 * std::sqrt(0.75)) < 1e-12);
    QVERIFY(!latest(walked({1.00, 1.10})).firstTwo);
}

void TestCourse::theWeightOfADifferenceFollowsFromTheError()
{
    catalogue::Catalogue book = examples::catalogue();
    book.thresholds.push_back(
        examples::threshold(u"important"_s, speed, u"parkinson"_s, 0.10, u"tilson"_s, 50));
    book.thresholds.back().answers = catalogue::Answers::Important;
    const auto held = *latest(walked({1.00, 0.82}), book).baseline;
    // 0.18 is 1.96 errors of a difference: 97.5 % of a normal distribution lie below.
    QVERIFY(std::abs(*held.z + 1.959963984540054) < 1e-9);
    QVERIFY(std::abs(*held.probabilityBeyondZero - 0.975) < 1e-9);
    // (0.18 − 0.10) / (0.18/1.96) = 0.871: 80.8 % (NIST/SEMATECH table 1.3.6.7.1: 0.87, 0.30785 + 0.5).
    QVERIFY(std::abs(*held.probabilityBeyondImportant - 0.808) < 1e-3);
    QVERIFY(!latest(walked({1.00, 0.82})).baseline->probabilityBeyondImportant);
    const auto none = *latest(walked({1.00, 1.00})).baseline;
    QCOMPARE(*none.z, 0.0);
    QCOMPARE(*none.probabilityBeyondZero, 0.5);
}

void TestCourse::theWeightOnTheLogScaleIsOfTheRatio()
{
    catalogue::Catalogue book = examples::catalogue();
    book.thresholds.front().scale = catalogue::Scale::Log;
    book.thresholds.front().improvement = book.thresholds.front().decline = 0.3;
    const double error = 0.3 / 1.959963984540054;
    for (const double after : {0.8, 1.2, 0.5}) {
        const auto held = *latest(walked({1.0, after}), book).baseline;
        QVERIFY(std::abs(*held.z - std::log(after) / error) < 1e-9);
        QCOMPARE(held.verdict == Verdict::WithinError, std::abs(std::log(after)) <= 0.3);
    }
}

void TestCourse::meansOfSingleTrialsNarrowTheLimit()
{
    std::vector<Visit> visits = walked({1.00, 0.85});
    visits[0].findings[0].trials = {0.98, 1.00, 1.02};
    visits[1].findings[0].trials = {0.84, 0.85, 0.86};
    catalogue::Catalogue book = examples::catalogue();
    QCOMPARE(latest(visits, book).baseline->verdict, Verdict::WithinError);
    book.thresholds.front().rule = catalogue::TrialRule::Single;
    const auto held = *latest(visits, book).baseline;
    QVERIFY(std::abs(held.threshold->decline - 0.18 / std::sqrt(3)) < 1e-12);
    QCOMPARE(held.verdict, Verdict::Worse);
}

void TestCourse::aTrendNeedsThreeVisits()
{
    QVERIFY(!latest(walked({1.0, 0.9})).course.trend);
    const judging::Course course = latest(walked({1.0, 0.9, 0.8})).course;
    const catalogue::Measure measure = *examples::catalogue().measure(speed);
    QCOMPARE(course.trend->n, 3);
    QVERIFY(course.trend->isProvisional);
    const auto robust = judging::robustSlope(course, measure);
    QVERIFY(std::abs(robust->value - -0.1 * 365.25 / 30) < 1e-9);
    QVERIFY(std::abs(course.trend->efficient->value - robust->value) < 1e-9);
    QVERIFY(!judging::robustSlope(latest(walked({1.0, 0.9})).course, measure));
    QVERIFY(latest(walked({1.0, 0.9, 0.8, 0.7})).course.trend->isProvisional);
    QVERIFY(!latest(walked({1.0, 0.9, 0.8, 0.7, 0.6})).course.trend->isProvisional);
    QVERIFY(std::abs(course.trend->line->atFirst - 1.0) < 1e-12);
    QVERIFY(std::abs(course.trend->line->perYear - robust->value) < 1e-9);
}

/// A share needs numbers above nothing, and one even limit at a known confidence; else the order judges.
void TestCourse::withoutAnEvenErrorTheOrderJudges()
{
    const auto trendOf = [](const QString& measure, const std::vector<double>& numbers, records::Side side) {
        std::vector<Visit> visits;
        for (const double seconds : numbers)
            visits.push_back(visit(u"v%1"_s.arg(visits.size()), afterDays(int(visits.size()) * 30),
                                   {finding(measure, Quantity{seconds, Unit::Second}, side)}));
        records::Patient patient = examples::patient(u"multiple-sclerosis"_s);
        patient.dominantHand = records::Hand::Right;
        return *judging::latestChanges(visits, patient, examples::catalogue()).front().course.trend;
    };
    const QString peg = u"nine-hole-peg"_s;
    const auto right = records::Side::Right;
    QVERIFY(trendOf(peg, {20, 22, 24, 26}, right).error);
    QVERIFY(!trendOf(peg, {20, 22, 24, 26}, right).pDue);
    const auto none = records::Side::None;
    QVERIFY(trendOf(peg, {0.9, 0.8, 0.7, 0.6}, right).error);
    QVERIFY(latest(scored({0, 1, 2, 3})).course.trend->error); // a difference is one from nothing too
    for (const auto& trend : {trendOf(peg, {20, 0, 24, 26, 28, 30, 32, 34}, right),
                              trendOf(u"timed-25-foot-walk"_s, {5, 6, 7, 8, 9, 10, 11, 12}, none),
                              trendOf(u"timed-up-and-go"_s, {10, 12, 14, 16, 18, 20, 22, 24}, none)}) {
        QVERIFY(!trend.error && !trend.z);
        QVERIFY(trend.pDue && trend.orderP);
    }
}

void TestCourse::fewVisitsCannotBeSignificant()
{
    // Two of n! orders are monotone: 1/3, 1/12, 1/60.
    const auto trend = [](int visits) {
        std::vector<double> speeds;
        for (int step = 0; step < visits; ++step)
            speeds.push_back(1 - 0.1 * step);
        return *latest(walked(speeds)).course.trend;
    };
    QVERIFY(std::abs(*trend(3).p - 1.0 / 3) < 1e-12);
    QVERIFY(std::abs(*trend(4).p - 1.0 / 12) < 1e-12);
    QVERIFY(std::abs(*trend(5).p - 1.0 / 60) < 1e-12);
    QVERIFY(!trend(4).mayBeSignificant);
    QVERIFY(trend(5).mayBeSignificant);
}

void TestCourse::gradesHaveNoSlope()
{
    std::vector<Visit> visits;
    for (const int grade : {3, 2, 2, 1})
        visits.push_back(visit(u"v%1"_s.arg(visits.size()), afterDays(int(visits.size()) * 30),
                               {finding(u"finger-nose"_s, values::Grade{grade}, records::Side::Right)}));
    const Change change = latest(visits);
    QVERIFY(!change.course.trend->z);
    QVERIFY(!judging::robustSlope(change.course, *examples::catalogue().measure(u"finger-nose"_s)));
    // Of the twelve orders of 3, 2, 2, 1 two are as clear.
    QVERIFY(std::abs(*change.course.trend->p - 1.0 / 6) < 1e-12);
    QCOMPARE(change.course.trend->agreement, -5);
}

void TestCourse::ofSeveralResultsOnOneDayTheLastCounts()
{
    std::vector<Visit> visits = walked({1.0, 0.5, 0.9, 0.8});
    visits[1].day = visits[0].day;
    const judging::Course course = latest(visits).course;
    QCOMPARE(course.trend->n, 3);
    QVERIFY(judging::robustSlope(course, *examples::catalogue().measure(speed))->value > 0);
    std::vector<Visit> later = walked({1.0, 0.2, 0.9, 0.8});
    later[1].day = later[2].day;
    QCOMPARE(latest(later).course.trend->n, 3);
    QCOMPARE(latest(later).course.trend->agreement, -3);
    later = walked({1.0, 0.2, 0.9, 0.8});
    later[1].findings.front().value = examples::unable();
    const auto slope =
        judging::robustSlope(latest(later).course, *examples::catalogue().measure(speed))->value;
    QVERIFY(std::abs(slope - -0.2 / 90 * 365.25) <
            1e-9); // the median of 0.1 in 60, 0.1 in 30 and 0.2 in 90 days
}

void TestCourse::theClinicSaysHowStrictlyItLooks()
{
    records::Judging judging;
    judging.plannedVisits = 12;
    QCOMPARE(judging::planOf(judging).visits, 12);
    QCOMPARE(judging::planOf(judging).level, 0.05);
    judging.strictness = records::Strictness::Strict;
    QCOMPARE(judging::planOf(judging).level, 0.02);
    judging.strictness = records::Strictness::Sensitive;
    QCOMPARE(judging::planOf(judging).level, 0.10);
}

void TestCourse::everyLookHasItsOwnBound()
{
    const auto boundAfter = [](size_t visits) {
        return *latest(walked(std::vector<double>(visits, 1.0))).course.trend->bound;
    };
    QVERIFY(boundAfter(5) != boundAfter(6));
}

void TestCourse::aTrendOfTheFirstLookMayHaveFallen()
{
    QCOMPARE(latest(walked({1.8, 1.2, 0.6})).course.trend->direction, std::optional(Verdict::Worse));
    const auto trend = *latest(walked({1.8, 1.2, 0.6, 1.8, 1.8})).course.trend;
    QVERIFY(!trend.direction);
    QCOMPARE(trend.former->direction, Verdict::Worse);
    QCOMPARE(trend.former->since, afterDays(60));
    QCOMPARE(trend.former->until, afterDays(60));
}

void TestCourse::percentRowsAreJudgedOnTheLogarithm()
{
    std::vector<Visit> visits;
    for (const double seconds : {20.0, 22.0, 24.2, 26.62})
        visits.push_back(
            visit(u"v%1"_s.arg(visits.size()), afterDays(int(visits.size()) * 30),
                  {finding(u"nine-hole-peg"_s, Quantity{seconds, Unit::Second}, records::Side::Right)}));
    records::Patient patient = examples::patient(u"multiple-sclerosis"_s);
    patient.dominantHand = records::Hand::Right;
    const auto change = judging::latestChanges(visits, patient, examples::catalogue()).front();
    // Equal steps of the logarithm, ln 1.1 each: slope/error = step · √Σ(i − 1.5)² / (0.194 / (1.96 · √2)).
    const double expected = std::log(1.1) * std::sqrt(5.0) / (0.194 / (1.959963984540054 * std::sqrt(2.0)));
    QVERIFY(std::abs(*change.course.trend->z - expected) < 1e-9);
    QVERIFY(!change.course.trend->efficient);
}

void TestCourse::aTrendIsSeenOnceBeforeItIsSustained()
{
    std::vector<double> speeds;
    std::optional<QDate> firstSeen;
    for (int step = 0; step < 12; ++step) {
        speeds.push_back(1.4 - 0.5 * standardError * step);
        const auto change = latest(walked(speeds));
        const auto& trend = change.course.trend;
        if (!trend || !trend->direction)
            continue;
        if (!firstSeen) {
            firstSeen = change.now.day;
            QCOMPARE(trend->strength, Strength::TrendSeenOnce);
            QCOMPARE(trend->since, change.now.day);
        } else {
            QCOMPARE(trend->strength, Strength::Sustained);
            QCOMPARE(trend->since, *firstSeen);
            const auto after = [&](qint64 days) {
                return latest(walked(speeds), confirmingAfter(int(days))).course.trend->strength;
            };
            const qint64 days = firstSeen->daysTo(change.now.day);
            QCOMPARE(after(days), Strength::Sustained);
            QCOMPARE(after(days + 1), Strength::TrendSeenOnce);
        }
        QCOMPARE(*trend->direction, Verdict::Worse);
        QVERIFY(!trend->former);
        if (change.baseline->verdict == Verdict::Worse)
            QCOMPARE(change.baseline->strength, trend->strength);
        else
            QCOMPARE(change.baseline->strength, Strength::None); // it is the trend's, not the comparison's
    }
    QVERIFY(firstSeen);
}

/// The long course rises, and the last visit lies below the first: each is told in its own direction.
void TestCourse::aTrendSpeaksForNoVerdictOfTheOtherDirection()
{
    const Change change = latest(scored({20, 22, 24, 26, 28, 30, 32, 34, 36, 38, 40, 42, 13}));
    QCOMPARE(change.baseline->verdict, Verdict::Worse);
    QCOMPARE(change.baseline->strength, Strength::SeenOnce);
    QCOMPARE(change.baseline->raised->rule, statistics::FlagRule::FirstVisit);
    QCOMPARE(change.course.trend->direction, std::optional(Verdict::Better));
    QCOMPARE(change.best->verdict, Verdict::Worse);
    // Over fewer visits such a fall takes the trend with it, since it says that this patient's results
    // scatter.
    const Change few = latest(scored({20, 25, 30, 35, 40, 45, 45, 14}));
    QCOMPARE(few.baseline->verdict, Verdict::Worse);
    QCOMPARE(few.baseline->strength, Strength::SeenOnce);
    QVERIFY(!few.course.trend->direction);
    QCOMPARE(few.course.trend->former->direction, Verdict::Better);
}

void TestCourse::onlyThePresentLookCounts()
{
    const Change change = latest(scored({30, 34, 38, 42, 46, 42, 38, 34, 30}));
    QCOMPARE(change.baseline->verdict, Verdict::WithinError);
    QCOMPARE(change.baseline->strength, Strength::None);
    const auto& trend = *change.course.trend;
    QVERIFY(!trend.direction);
    QCOMPARE(trend.strength, Strength::None);
    QCOMPARE(trend.former->direction, Verdict::Better);
    QVERIFY(trend.former->since < trend.former->until && trend.former->until < change.now.day);
    QCOMPARE(change.best->verdict, Verdict::Worse);
}

/// One visit at the end far below seven that are alike.
void TestCourse::oneBadVisitSustainsNothing()
{
    std::vector<double> points;
    for (const double score : {50., 51., 49., 50., 50., 51., 50., 12., 50., 51.}) {
        points.push_back(score);
        const Change change = latest(scored(points));
        if (change.course.trend)
            QVERIFY(change.course.trend->strength != Strength::Sustained);
    }
}

void TestCourse::threeDaysSustainNothing()
{
    const Change change = latest(walked({1.3, 0.8, 0.8, 0.8, 0.8}, 1));
    QCOMPARE(change.baseline->verdict, Verdict::Worse);
    QVERIFY(change.baseline->strength != Strength::Sustained);
    QVERIFY(change.baseline->strength != Strength::Confirmed);
}

void TestCourse::whoWasUnableInBetweenBreaksAConfirmation()
{
    std::vector<Visit> visits = walked({1.00, 0.80, 0.80, 0.79});
    visits[2].findings[0].value = values::Missing{values::Absence::Unable, u"fell"_s};
    const Change change = latest(visits);
    QCOMPARE(change.baseline->verdict, Verdict::Worse);
    QCOMPARE(change.baseline->strength, Strength::SeenOnce);
    QVERIFY(change.course.confirmations.empty());
}

void TestCourse::whereTheErrorIsNotKnownNoRateIsGiven()
{
    catalogue::Catalogue book = examples::catalogue();
    book.thresholds.front().confidence.reset();
    const Change change = latest(walked({1.00, 0.98, 0.80}), book);
    QCOMPARE(change.baseline->verdict, Verdict::Worse);
    QVERIFY(!change.baseline->raised);
}

/// Recovery and relapse, which no slope shows.
void TestCourse::aRelapseIsAReversal()
{
    const Change change = latest(scored({30, 34, 38, 42, 46, 46, 34, 30}));
    QVERIFY(change.course.trend->direction != std::optional(Verdict::Worse));
    const auto& reversal = change.course.trend->reversal;
    QVERIFY(reversal);
    QCOMPARE(reversal->direction, Verdict::Worse);
    QCOMPARE(reversal->before, 46.0);
    QCOMPARE(reversal->now, 32.0);
    QCOMPARE(reversal->from, change.course.run[4].day);
    QCOMPARE(reversal->until, change.course.run[5].day);
    QCOMPARE(reversal->strength, Strength::TrendSeenOnce);
    QVERIFY(std::abs(reversal->z) > reversal->bound);
    QCOMPARE(reversal->raised->rule, statistics::FlagRule::Turn);
    const Change later = latest(scored({30, 34, 38, 42, 46, 46, 34, 30, 29, 30}));
    QCOMPARE(later.course.trend->reversal->strength, Strength::Sustained);
    QCOMPARE(later.course.trend->reversal->since, change.now.day);
    const Change soon = latest(scored({30, 34, 38, 42, 46, 46, 34, 30, 29, 30}), confirmingAfter(1000));
    QCOMPARE(soon.course.trend->reversal->strength, Strength::TrendSeenOnce);
}

void TestCourse::theErrorIsDrawnTowardTheOwnScatter()
{
    const Change few = latest(scored({30, 40, 30, 40}));
    QVERIFY(!few.course.trend->error->own);
    const Change change = latest(scored({30, 40, 30, 40, 30}));
    const judging::RunError& error = *change.course.trend->error;
    QVERIFY(std::abs(error.own->deviation - std::sqrt(50)) < 1e-12);
    QVERIFY(error.used > error.published && error.used < error.own->deviation);
    QVERIFY(std::abs(error.published - 5 / (1.959963984540054 * std::sqrt(2))) < 1e-9);
}

void TestCourse::gradesThatFallInOrderAreATrend()
{
    std::vector<Visit> visits;
    std::optional<judging::Trend> trend;
    for (const int grade : {4, 4, 3, 3, 2, 1, 1, 0}) {
        visits.push_back(visit(u"v%1"_s.arg(visits.size()), afterDays(int(visits.size()) * 30),
                               {finding(u"finger-nose"_s, values::Grade{grade}, records::Side::Right)}));
        trend = latest(visits).course.trend;
    }
    QCOMPARE(trend->direction, std::optional(Verdict::Better));
    QCOMPARE(trend->strength, Strength::Sustained);
    QCOMPARE(trend->raised->rule, statistics::FlagRule::Order);
    QVERIFY(*trend->orderP < *trend->pDue);
    const Change change = latest(visits);
    QCOMPARE(change.baseline->verdict, Verdict::StepBetter);
    QCOMPARE(change.baseline->strength, Strength::Sustained);
}

HOUSE_TEST(TestCourse)

} // namespace test_course

#include "test_course.moc"
