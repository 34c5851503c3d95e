#include "core/statistics/trend.h"

#include "tests/support/test_support.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

namespace test_trend
{

class TestTrend : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aGrowingSlopeIsTheSlopeOfWhatCameSoFar();
    void aSlopeNeedsTwoTimesAndAnError();
    void theOrderIsCountedOverAllPermutations();
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

/// Every order of the values, ties and all, one by one.
void TestTrend::theOrderIsCountedOverAllPermutations()
{
    const auto clear = [](const std::vector<double>& values) {
        int s = 0;
        for (size_t first = 0; first < values.size(); ++first) {
            for (size_t second = first + 1; second < values.size(); ++second)
                s += int(values[second] > values[first]) - int(values[second] < values[first]);
        }
        return std::abs(s);
    };
    for (std::vector<double> values : {std::vector<double>{1, 2, 3, 4, 5},
                                       {2, 2, 2},
                                       {3, 2, 2, 1},
                                       {0, 0, 1, 1, 2, 3},
                                       {5, 1, 4, 4, 2, 3, 3}}) {
        const int asClear = clear(values);
        const double p = statistics::orderP(values);
        std::ranges::sort(values);
        int orders = 0;
        int beyond = 0;
        do {
            ++orders;
            beyond += int(clear(values) >= asClear);
        } while (std::ranges::next_permutation(values).found);
        QVERIFY(std::abs(p - double(beyond) / orders) < 1e-12);
    }
    QCOMPARE(statistics::orderP(std::vector<double>{1}), 1.0);
    std::vector<double> many(20, 4);
    QCOMPARE(statistics::orderP(many), 1.0);
    std::iota(many.begin(), many.end(), 0.0);
    QVERIFY(statistics::orderP(many) < 1e-6);
}

HOUSE_TEST(TestTrend)

} // namespace test_trend

#include "test_trend.moc"
