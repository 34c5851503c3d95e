#include "core/statistics/trend.h"

#include "tests/support/test_support.h"

#include <cmath>
#include <random>

namespace test_trend
{

class TestTrend : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aGrowingSlopeIsTheSlopeOfWhatCameSoFar();
    void aSlopeNeedsTwoTimesAndAnError();
};

void TestTrend::aGrowingSlopeIsTheSlopeOfWhatCameSoFar()
{
    // 1.959964 is the two-sided 95 % point: a slope less its lower limit is that many standard errors.
    std::mt19937 generator(7);
    for (int series = 0; series < 200; ++series) {
        std::vector<double> times;
        std::vector<double> values;
        statistics::GrowingSlope growing;
        double time = 0;
        for (int visit = 0; visit < 30; ++visit) {
            time += 0.01 + double(generator() % 100) / 100;
            times.push_back(time);
            values.push_back(100 + double(generator() % 1000) / 100);
            growing.add(times.back(), values.back());
            const auto slope = statistics::leastSquares(times, values, 0.7);
            QCOMPARE(slope.has_value(), growing.inErrors(0.7).has_value());
            if (!slope)
                continue;
            const double expected = slope->value / (slope->value - slope->low) * 1.959963984540054;
            QVERIFY(std::abs(*growing.inErrors(0.7) - expected) <= 1e-9 * (1 + std::abs(expected)));
        }
    }
}

void TestTrend::aSlopeNeedsTwoTimesAndAnError()
{
    statistics::GrowingSlope slope;
    QVERIFY(!slope.inErrors(1));
    slope.add(1, 5);
    slope.add(1, 6);
    QVERIFY(!slope.inErrors(1));
    slope.add(2, 6);
    QVERIFY(slope.inErrors(1));
    QVERIFY(!slope.inErrors(0));
}

HOUSE_TEST(TestTrend)

} // namespace test_trend

#include "test_trend.moc"
