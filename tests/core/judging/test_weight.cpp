#include "core/judging/weight.h"

#include "core/statistics/distributions.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <cmath>

using namespace Qt::StringLiterals;

namespace test_weight
{

using catalogue::Direction;
using catalogue::Scale;
using judging::Applied;
using judging::Comparison;

const QString speed = u"gait-speed-comfortable"_s;
constexpr double z95 = 1.959963984540054;

/// From a reference to another value, by a row whose limits are narrowed by the factor.
Comparison weighed(Scale scale, double limit, double factor, double reference, double now,
                   std::optional<double> important = {})
{
    const auto number = [](double of) { return values::Quantity{of, values::Unit::MetrePerSecond}; };
    Comparison held;
    held.reference.finding = examples::finding(speed, number(reference));
    held.now.finding = examples::finding(speed, number(now));
    held.difference = now - reference;
    auto row = examples::threshold(u"x"_s, speed, u"stroke"_s, limit, u"hosoi"_s, 20);
    row.scale = scale;
    held.threshold = judging::applied(row, reference, now, Direction::HigherIsBetter);
    held.threshold->factor = factor;
    held.threshold->improvement *= factor;
    held.threshold->decline *= factor;
    if (important)
        held.important = Applied{row, *important, *important};
    judging::weigh(held, Direction::HigherIsBetter);
    return held;
}

bool isNear(const std::optional<double>& number, double expected)
{
    return number && std::abs(*number - expected) < 1e-9;
}

class TestWeight : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    /// The limit is 1.96 standard errors of a difference, of means as of single values.
    void aDifferenceIsInItsOwnErrors()
    {
        QVERIFY(isNear(weighed(Scale::Absolute, 0.18, 1, 1.0, 0.82).z, -z95));
        QVERIFY(isNear(weighed(Scale::Absolute, 0.18, 0.5, 1.0, 1.09).z, z95));
        QVERIFY(isNear(weighed(Scale::PercentOfReference, 20, 1, 2.0, 2.4).z, z95));
        QVERIFY(isNear(weighed(Scale::PercentOfReference, 20, 0.5, 2.0, 1.8).z, -z95));
        QVERIFY(isNear(weighed(Scale::Absolute, 0.18, 1, 1.0, 1.18).probabilityBeyondZero, 0.975));
    }

    void onTheLogScaleItIsARatio()
    {
        QVERIFY(isNear(weighed(Scale::Log, 0.3, 1, 2.0, 2.0 * std::exp(0.3)).z, z95));
        QVERIFY(isNear(weighed(Scale::Log, 0.3, 0.5, 2.0, 2.0 * std::exp(0.15)).z, z95));
        QVERIFY(isNear(weighed(Scale::Log, 0.3, 0.5, 2.0, 2.0 * std::exp(-0.15)).z, -z95));
        QVERIFY(!weighed(Scale::Log, 0.3, 1, 2.0, 0).z);
    }

    void whatIsImportantIsOnTheSameScale()
    {
        const auto chance = [](double errors) { return statistics::normalShareBelow(errors); };
        QVERIFY(isNear(weighed(Scale::Absolute, 0.18, 1, 1.0, 1.18, 0.09).probabilityBeyondImportant,
                       chance(z95 / 2)));
        const double error = 0.3 / z95;
        QVERIFY(isNear(weighed(Scale::Log, 0.3, 1, 2.0, 2.6, 0.2).probabilityBeyondImportant,
                       chance((std::log(1.3) - std::log(1.1)) / error)));
        QVERIFY(isNear(weighed(Scale::Log, 0.3, 1, 2.0, 1.6, 0.2).probabilityBeyondImportant,
                       chance((-std::log(0.8) + std::log(0.9)) / error)));
        QVERIFY(isNear(weighed(Scale::Log, 0.3, 1, 2.0, 2.0, 0.2).probabilityBeyondImportant,
                       chance(-std::log(1.1) / error)));
        QVERIFY(!weighed(Scale::Log, 0.3, 1, 2.0, 1.6, 2.0).probabilityBeyondImportant); // down to nothing
    }

    void withoutAnErrorNothingIsWeighed()
    {
        Comparison held = weighed(Scale::Absolute, 0.18, 1, 1.0, 0.82);
        held.z.reset();
        held.threshold->row.sem = 0;
        judging::weigh(held, Direction::HigherIsBetter);
        QVERIFY(!held.z);
        held.threshold.reset();
        judging::weigh(held, Direction::HigherIsBetter);
        QVERIFY(!held.z);
    }
};

HOUSE_TEST(TestWeight)

} // namespace test_weight

#include "test_weight.moc"
