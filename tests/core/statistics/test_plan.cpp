#include "core/statistics/plan.h"

#include "core/statistics/distributions.h"
#include "core/statistics/scatter.h"
#include "tests/support/test_support.h"

#include <array>
#include <cmath>
#include <numeric>

namespace test_plan
{

using namespace statistics;

std::vector<double> evenly(int visits)
{
    std::vector<double> times(size_t(visits), 0.0);
    std::iota(times.begin(), times.end(), 0.0);
    return times;
}

class TestPlan : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aPlanSpendsItsLevelAndTheNextBeginsAnew()
    {
        const Plan plan{8, 0.05};
        QCOMPARE(trendSpent(2, plan), 0.0);
        QVERIFY(std::abs(trendSpent(8, plan) - 0.04) < 1e-12);
        QVERIFY(std::abs(trendSpent(4, plan) - 0.04 / 8) < 1e-12);
        QVERIFY(std::abs(trendSpent(9, plan) - 0.03 / 8) < 1e-12);
        for (const int end : {16, 24, 104})
            QVERIFY(std::abs(trendSpent(end, plan) - 0.03) < 1e-12);
    }

    /// 3.085 SEM for eight evenly spaced visits, worked out by an independent biostatistician; here counted
    /// among fifty thousand people, which errs by 0.02.
    void theTurnOfEightVisitsHasItsBound()
    {
        const auto bounds = boundsAt(evenly(4), {8, 0.05});
        QVERIFY(!bounds[2].turn);
        QVERIFY2(std::abs(*bounds[3].turn - 3.085) < 0.03, qPrintable(QString::number(*bounds[3].turn)));
    }

    void fromTheFifthVisitBoundsGoThroughStudent()
    {
        const Plan plan{8, 0.05};
        const auto known = trendBounds(evenly(8), plan);
        const auto bounds = boundsAt(evenly(8), plan);
        QCOMPARE(*bounds[3].trend, *known[3]);
        for (size_t visit = 4; visit < bounds.size(); ++visit) {
            const double degrees = publishedDegrees + degreesOfScatter(int(visit) + 1);
            const double p = normalShareBelow(-*known[visit]);
            QVERIFY(std::abs(*bounds[visit].trend + studentQuantile(p, degrees)) < 1e-9);
            QVERIFY(*bounds[visit].trend > *known[visit]);
        }
    }

    void aLaterVisitChangesNoEarlierBound()
    {
        const std::vector<double> times = {0, 3, 90, 97, 400, 401, 500, 720, 721, 900, 1200, 1203};
        const Plan plan{5, 0.05};
        const auto all = boundsAt(times, plan);
        for (size_t visits = 1; visits < times.size(); ++visits) {
            const auto fewer = boundsAt(std::span(times).first(visits), plan);
            QCOMPARE(fewer.size(), visits);
            for (size_t visit = 0; visit < visits; ++visit) {
                QCOMPARE(fewer[visit].trend.has_value(), all[visit].trend.has_value());
                QVERIFY(!fewer[visit].trend || std::abs(*fewer[visit].trend - *all[visit].trend) < 1e-5);
                QCOMPARE(fewer[visit].turn, all[visit].turn);
            }
        }
    }

    void theUnitOfTimeIsIndifferent()
    {
        std::vector<double> times = {0, 30, 61, 95, 200, 260, 300, 391, 480};
        const auto days = trendBounds(times, {});
        for (double& time : times)
            time /= 365.25;
        const auto years = trendBounds(times, {});
        for (size_t visit = 2; visit < times.size(); ++visit)
            QVERIFY(std::abs(*days[visit] - *years[visit]) < 1e-6);
    }

    void aStricterPlanAsksForMore()
    {
        const auto at = [](double level) { return boundsAt(evenly(20), {8, level}); };
        const auto strict = at(0.02);
        const auto balanced = at(0.05);
        const auto sensitive = at(0.10);
        for (size_t visit = 3; visit < strict.size(); ++visit) {
            QVERIFY(*strict[visit].trend > *balanced[visit].trend);
            QVERIFY(*balanced[visit].trend > *sensitive[visit].trend);
            QVERIFY(*strict[visit].turn > *balanced[visit].turn);
            QVERIFY(*balanced[visit].turn > *sensitive[visit].turn);
        }
    }

    void thereIsNoBoundWhereThereIsNothingToLookAt()
    {
        QVERIFY(boundsAt({}, {}).empty());
        QVERIFY(!boundsAt(evenly(2), {})[1].trend);
        QVERIFY(boundsAt(std::array{0.0, 1.0, 1.0}, {}).empty());
        QVERIFY(boundsAt(evenly(3), {2, 0.05}).empty());
        QVERIFY(boundsAt(evenly(3), {8, 0}).empty());
        const auto ofThree = boundsAt(evenly(4), {3, 0.05});
        QVERIFY(ofThree[2].trend && !ofThree[2].turn); // nobody turns within three visits
        QVERIFY(ofThree[3].turn);
    }
};

HOUSE_TEST(TestPlan)

} // namespace test_plan

#include "test_plan.moc"
