#include "core/statistics/watch.h"

#include "tests/support/test_support.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace test_watch
{

using namespace statistics;

std::vector<double> evenly(size_t visits)
{
    std::vector<double> times(visits, 0.0);
    std::iota(times.begin(), times.end(), 0.0);
    return times;
}

Watched watchedEvenly(const std::vector<double>& values, double error = 1)
{
    return watched(evenly(values.size()), values, error, {});
}

class TestWatch : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theTurnIsFromTheBestPairThatSharesNoVisit()
    {
        GrowingTurn growing;
        for (const double value : {1.0, 5.0, 9.0})
            growing.add(value);
        QVERIFY(!growing.turn()); // (1, 5) and the last two share the 5
        growing.add(8);
        QCOMPARE(growing.turn()->now, 8.5);
        QCOMPARE(growing.turn()->highest.mean, 3.0);
        QCOMPARE(growing.turn()->highest.second, 1);
        growing.add(2);
        QCOMPARE(growing.turn()->highest.mean, 7.0);
        QCOMPARE(growing.turn()->lowest.mean, 3.0);
        QCOMPARE(growing.turn()->size(), 2.0);
    }

    /// Recovery and relapse: the line rose as much as it fell, the turn does not.
    void aRelapseIsATurnAndNoTrend()
    {
        const auto found = watchedEvenly({0, 3, 6, 8, 8, 6, 3, 0}, 1.2);
        QCOMPARE(found.trend.back().way(), 0);
        QCOMPARE(found.turn.back().way(), -1);
    }

    void whereBothAreFarTheLaterPairIsTheTurn()
    {
        const std::vector<double> up = {0, 0, 0, 0, 5, 10, 15, 20, 20, 20, 20, 16, 12, 10, 10};
        const std::vector<double> down = {20, 20, 20, 20, 15, 10, 5, 0, 0, 0, 0, 4, 8, 10, 10};
        QCOMPARE(watchedEvenly(up).turn.back().way(), -1);
        QCOMPARE(watchedEvenly(down).turn.back().way(), 1);
    }

    void theErrorIsDrawnTowardTheOwnScatterFromTheFifthVisit()
    {
        QVERIFY(!watchedEvenly({1, 5, 1, 5}).own);
        QCOMPARE(watchedEvenly({1, 5, 1, 5}).error, 1.0);
        const auto five = watchedEvenly({1, 5, 1, 5, 1});
        QVERIFY(std::abs(five.own->deviation - std::sqrt(8)) < 1e-12);
        QVERIFY(std::abs(five.error - shrunkError(1, *five.own)) < 1e-12);
    }

    void oneVisitAloneStandsForNothing()
    {
        const std::vector<double> low = {0, 0, 0, 0, 0, 0, -9, 0.1};
        const auto found = watchedEvenly(low);
        QVERIFY(found.turn.back().way() == 0 || !turnStands(found, low));
        const std::vector<double> fallen = {0, 0, 0, 0, 0, -8, -8, -8};
        const auto kept = watchedEvenly(fallen);
        QCOMPARE(kept.turn.back().way(), -1);
        QVERIFY(turnStands(kept, fallen));
        QCOMPARE(kept.trend.back().way(), -1);
        QVERIFY(trendStands(kept, evenly(fallen.size()), fallen));
    }

    void negatedValuesSayTheOpposite()
    {
        for (std::vector<double> values : {std::vector<double>{0, 2, 5, 9, 8, 3, 1, -2, 4, 9},
                                           {0, 0, 20, 20, 10, 10, 4, 4, 4},
                                           {1, 1, 1, 1, 1, 1, 1, 1, 1, 1}}) {
            const auto found = watchedEvenly(values);
            std::ranges::transform(values, values.begin(), std::negate<>());
            const auto opposite = watchedEvenly(values);
            for (size_t look = 0; look < found.trend.size(); ++look)
                QCOMPARE(opposite.trend[look].way(), -found.trend[look].way());
            for (size_t look = 0; look < found.turn.size(); ++look)
                QCOMPARE(opposite.turn[look].way(), -found.turn[look].way());
        }
    }

    void aFinerUnitChangesNothing()
    {
        std::vector<double> values = {10, 12, 11, 9, 7, 6, 6, 4, 3};
        const auto found = watchedEvenly(values);
        for (double& value : values)
            value *= 1000;
        const auto finer = watchedEvenly(values, 1000);
        for (size_t look = 0; look < found.trend.size(); ++look)
            QVERIFY(std::abs(finer.trend[look].z - found.trend[look].z) < 1e-9);
        for (size_t look = 0; look < found.turn.size(); ++look)
            QVERIFY(std::abs(finer.turn[look].z - found.turn[look].z) < 1e-9);
    }

    void aLaterVisitChangesNothingThatWasSaid()
    {
        const std::vector<double> values = {4, 4, 5, 9, 9, 8, 2, 1, 1, 1, 7, 8, 8, 9, 3, 3, 2, 2};
        const auto all = watchedEvenly(values);
        for (size_t visits = 3; visits < values.size(); ++visits) {
            const auto before = watchedEvenly({values.begin(), values.begin() + std::ptrdiff_t(visits)});
            QCOMPARE(before.trend.back(), all.trend[before.trend.size() - 1]);
            if (!before.turn.empty())
                QCOMPARE(before.turn.back(), all.turn[before.turn.size() - 1]);
        }
    }

    void whatAgreesWithoutABreakBeganThere()
    {
        const std::vector<Look> looks = {{3, 5, 2}, {4, 1, 2}, {5, 3, 2}, {6, 4, 2}, {7, -4, 2}};
        QCOMPARE(firstAgreeing(looks, 3), size_t(2));
        QCOMPARE(firstAgreeing(looks, 4), size_t(4));
        QCOMPARE(firstAgreeing(looks, 0), size_t(0));
    }
};

HOUSE_TEST(TestWatch)

} // namespace test_watch

#include "test_watch.moc"
