#include "core/judging/own_scatter.h"

#include "core/judging/change.h"
#include "core/statistics/distributions.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <cmath>
#include <random>

using namespace Qt::StringLiterals;

namespace test_own_scatter
{

using judging::OwnScatter;
using judging::Tier;
using judging::Verdict;
using records::Occasion;
using values::Quantity;
using values::Unit;

constexpr statistics::Plan eight{8, 0.05};

catalogue::Measure measureOf(const QString& id)
{
    return *examples::catalogue().measure(id);
}

std::vector<Occasion> runOf(const std::vector<double>& numbers, Unit unit = Unit::Score)
{
    std::vector<Occasion> run;
    for (const double number : numbers) {
        Occasion occasion;
        occasion.day = QDate(2026, 1, 12).addDays(qint64(run.size()) * 30);
        occasion.finding.value = Quantity{number, unit};
        run.push_back(occasion);
    }
    return run;
}

std::optional<OwnScatter> ownOf(const std::vector<Occasion>& run, const catalogue::Measure& measure)
{
    std::vector<const Occasion*> pointers;
    for (const Occasion& occasion : run)
        pointers.push_back(&occasion);
    return judging::ownScatterOf(pointers, measure, eight);
}

judging::Change latest(const std::vector<double>& points)
{
    std::vector<records::Visit> visits;
    for (const double score : points)
        visits.push_back(examples::visit(u"v%1"_s.arg(visits.size() + 1),
                                         QDate(2026, 1, 12).addDays(qint64(visits.size()) * 30),
                                         {examples::finding(u"sara"_s, Quantity{score, Unit::Score})}));
    return judging::latestChanges(visits, examples::patient(u"cerebellar-ataxia"_s), examples::catalogue())
        .front();
}

class TestOwnScatter : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void fourEarlierVisitsAreNeeded();
    void ofSeveralOnOneDayTheLastCounts();
    void theLimitItselfIsWithin();
    void theSumIsWorkedByHand();
    void theScatterIsNeverBelowWhatTheMeasureResolves();
    void whatLiesAtTheCapIsLeftOut();
    void everyComparisonOfTheResultSaysIt();
    void noRateStandsBesideWhatIsNotFlagged();
    void aPublishedErrorComesFirst();
    void stablePeopleAreFlaggedBelowTheLevel_data();
    void stablePeopleAreFlaggedBelowTheLevel();
};

void TestOwnScatter::fourEarlierVisitsAreNeeded()
{
    const catalogue::Measure sara = measureOf(u"sara"_s);
    QVERIFY(!ownOf(runOf({12, 13, 12, 13}), sara));
    QVERIFY(ownOf(runOf({12, 13, 12, 13, 12}), sara));
    QVERIFY(!ownOf(runOf({12}), sara) && !ownOf({}, sara));
    auto unable = runOf({12, 13, 12, 13, 12, 13});
    unable.back().finding.value = examples::unable();
    QVERIFY(!ownOf(unable, sara));
}

void TestOwnScatter::ofSeveralOnOneDayTheLastCounts()
{
    const catalogue::Measure sara = measureOf(u"sara"_s);
    auto run = runOf({12, 99, 14, 11, 13, 18});
    run[1].day = run[2].day;
    QCOMPARE(ownOf(run, sara)->mean, 12.5);
    auto few = runOf({12, 14, 11, 13, 18});
    few[1].day = few[2].day;
    QVERIFY(!ownOf(few, sara));
}

void TestOwnScatter::theLimitItselfIsWithin()
{
    judging::Comparison held;
    held.difference = 4;
    OwnScatter own;
    own.visits = 5;
    own.limit = 3.5;
    const auto verdict = [&](double t) {
        own.t = t;
        judging::judgeByOwn(held, own, eight, catalogue::Direction::HigherIsBetter);
        return held.verdict;
    };
    QCOMPARE(verdict(3.5), Verdict::WithinError);
    QCOMPARE(verdict(3.6), Verdict::Better);
    QCOMPARE(verdict(-3.6), Verdict::Worse);
    QCOMPARE(verdict(-3.5), Verdict::WithinError);
}

void TestOwnScatter::theSumIsWorkedByHand()
{
    const auto own = *ownOf(runOf({12, 14, 11, 13, 18}), measureOf(u"sara"_s));
    QCOMPARE(own.visits, 4);
    QCOMPARE(own.mean, 12.5);
    // Differences 2, −3, 2: √(17 / 6).
    QVERIFY(std::abs(own.deviation - std::sqrt(17.0 / 6)) < 1e-12);
    QVERIFY(std::abs(own.t - 5.5 / (std::sqrt(17.0 / 6) * std::sqrt(1.25))) < 1e-12);
    // The fifth visit of eight may spend 5 % · (5/8)³ = 1.2 %, so that 3.48, the 5 % limit, is not enough.
    QVERIFY(own.limit > 3.48);
    QVERIFY(std::abs(own.limitInUnit() - own.limit * own.deviation * std::sqrt(1.25)) < 1e-12);
}

void TestOwnScatter::theScatterIsNeverBelowWhatTheMeasureResolves()
{
    const auto points = *ownOf(runOf({12, 12, 12, 12, 13}), measureOf(u"berg-balance"_s));
    QVERIFY(std::abs(points.deviation - 1 / std::sqrt(12.0)) < 1e-12);
    const auto seconds = *ownOf(runOf({12, 12, 12, 12, 12}, Unit::Second), measureOf(u"timed-up-and-go"_s));
    QCOMPARE(seconds.deviation, 0.1); // a hand on a stopwatch
    catalogue::Measure stepless = measureOf(u"sara"_s);
    stepless.step.reset();
    QVERIFY(!ownOf(runOf({12, 12, 12, 12, 13}), stepless)); // nothing to hold it against
}

void TestOwnScatter::whatLiesAtTheCapIsLeftOut()
{
    const catalogue::Measure romberg = measureOf(u"romberg-eyes-closed"_s); // stopped at 60 s
    QVERIFY(!ownOf(runOf({50, 52, 60, 51, 40}, Unit::Second), romberg));
    QVERIFY(!ownOf(runOf({50, 52, 51, 50, 60}, Unit::Second), romberg));
    QCOMPARE(ownOf(runOf({50, 52, 60, 51, 50, 40}, Unit::Second), romberg)->visits, 4);
}

void TestOwnScatter::everyComparisonOfTheResultSaysIt()
{
    const auto change = latest({12, 12.5, 12, 11.5, 12, 20});
    for (const auto& held : {change.previous, change.baseline, change.best}) {
        QCOMPARE(held->tier, Tier::OwnScatter);
        QCOMPARE(held->verdict, Verdict::Worse);
        QCOMPARE(held->strength, judging::Strength::SeenOnce);
        QCOMPARE(held->own->visits, 5);
    }
    QCOMPARE(latest({12, 12.5, 12, 11.5, 12, 12.5}).baseline->verdict, Verdict::WithinError);
    QCOMPARE(latest({12, 12.5, 12, 20}).baseline->verdict, Verdict::NoThreshold);
    QCOMPARE(latest({12, 12.5, 12, 20}).baseline->tier, Tier::None);
}

/// Counts have a direction and a trend of their order before the own scatter judges; a rate stands beside a
/// flag alone.
void TestOwnScatter::noRateStandsBesideWhatIsNotFlagged()
{
    std::vector<records::Visit> visits;
    for (const double steps : {1, 4, 2, 5, 3, 6, 4, 7, 5, 8, 6, 9})
        visits.push_back(examples::visit(
            u"v%1"_s.arg(visits.size() + 1), QDate(2026, 1, 12).addDays(qint64(visits.size()) * 30),
            {examples::finding(u"tandem-steps"_s, Quantity{steps, Unit::Steps})}));
    const auto change =
        judging::latestChanges(visits, examples::patient(u"cerebellar-ataxia"_s), examples::catalogue())
            .front();
    QVERIFY(change.course.trend->direction);
    for (const auto& held : {change.previous, change.baseline, change.best}) {
        QCOMPARE(held->tier, Tier::OwnScatter);
        QCOMPARE(held->verdict, Verdict::WithinError);
        QVERIFY(!held->raised);
        QVERIFY(!held->since);
    }
}

void TestOwnScatter::aPublishedErrorComesFirst()
{
    std::vector<records::Visit> visits;
    for (const double seconds : {10.0, 10.1, 10.0, 10.1, 10.0, 12.0})
        visits.push_back(examples::visit(
            u"v%1"_s.arg(visits.size() + 1), QDate(2026, 1, 12).addDays(qint64(visits.size()) * 30),
            {examples::finding(u"timed-up-and-go"_s, Quantity{seconds, Unit::Second})}));
    const auto change =
        judging::latestChanges(visits, examples::patient(u"multiple-sclerosis"_s), examples::catalogue())
            .front();
    QCOMPARE(change.baseline->tier, Tier::Published);
    QVERIFY(!change.baseline->own);
}

void TestOwnScatter::stablePeopleAreFlaggedBelowTheLevel_data()
{
    QTest::addColumn<double>("deviation");
    QTest::addColumn<double>("step");
    QTest::newRow("fine") << 2.0 << 0.0;
    for (const double deviation : {0.2, 0.3, 0.5, 1.0})
        QTest::newRow(qPrintable(QString::number(deviation))) << deviation << 1.0;
}

/// Eight visits each; whole points are where little scatter would flag most.
void TestOwnScatter::stablePeopleAreFlaggedBelowTheLevel()
{
    QFETCH(double, deviation);
    QFETCH(double, step);
    constexpr int people = 2000;
    const catalogue::Measure berg = measureOf(u"berg-balance"_s);
    std::mt19937 engine(20261130);
    int flagged = 0;
    for (int person = 0; person < people; ++person) {
        const double level = 30 + (double(engine()) + 0.5) / 4294967296.0;
        std::vector<double> points;
        for (int visit = 0; visit < 8; ++visit) {
            const double value =
                level + deviation * statistics::normalValueAt((double(engine()) + 0.5) / 4294967296.0);
            points.push_back(step > 0 ? std::round(value / step) * step : value);
        }
        bool isFlagged = false;
        for (size_t visits = 5; visits <= points.size(); ++visits) {
            const auto own = ownOf(runOf({points.begin(), points.begin() + std::ptrdiff_t(visits)}), berg);
            isFlagged = isFlagged || std::abs(own->t) > own->limit;
        }
        flagged += int(isFlagged);
    }
    const double share = double(flagged) / people;
    QVERIFY2(share <= 0.05 + 2 * std::sqrt(0.05 * 0.95 / people), qPrintable(QString::number(share)));
}

HOUSE_TEST(TestOwnScatter)

} // namespace test_own_scatter

#include "test_own_scatter.moc"
