#include "core/judging/weight.h"

#include "core/statistics/distributions.h"
#include "core/statistics/reliability.h"

#include <cmath>
#include <numbers>

namespace judging
{

namespace
{

using catalogue::Direction;
using catalogue::Scale;
using catalogue::Threshold;

/// A difference and its standard error, on the scale on which the row's error is the same at every level.
struct Deviation {
    double difference = 0;
    double error = 0;
};

std::optional<Deviation> deviationOf(const Comparison& held, Direction better)
{
    const Applied& threshold = *held.threshold;
    const Threshold& row = threshold.row;
    if (const auto standard = standardErrorOf(row))
        return Deviation{*held.difference, std::numbers::sqrt2 * *standard * threshold.factor};
    const auto z = statistics::normalQuantile(judgedAt);
    if (!row.confidence || !z)
        return std::nullopt;
    const double limit = threshold.limitFor(*held.difference, better);
    if (row.scale != Scale::Log)
        return Deviation{*held.difference, limit / *z};
    const double reference = *values::number(held.reference.finding.value);
    const double ratio = *values::number(held.now.finding.value) / reference;
    const double change = (*held.difference < 0 ? -limit : limit) / threshold.factor;
    const double error = std::abs(std::log1p(change / reference)) * threshold.factor / *z;
    return ratio > 0 ? std::optional(Deviation{std::log(ratio), error}) : std::nullopt;
}

/// The important change the way of the difference, on the same scale. Empty where it leaves a logarithm.
std::optional<double> importantOn(Scale scale, const Comparison& held, Direction better)
{
    if (!held.important)
        return std::nullopt;
    const double limit = held.important->limitFor(*held.difference, better);
    if (scale != Scale::Log)
        return limit;
    const double share =
        (*held.difference < 0 ? -limit : limit) / *values::number(held.reference.finding.value);
    return share > -1 ? std::optional(std::abs(std::log1p(share))) : std::nullopt;
}

} // namespace

void weigh(Comparison& held, Direction better)
{
    const auto deviation = held.threshold ? deviationOf(held, better) : std::nullopt;
    if (!deviation || !(deviation->error > 0))
        return;
    const double size = std::abs(deviation->difference);
    held.z = deviation->difference / deviation->error;
    held.probabilityBeyondZero = statistics::normalShareBelow(size / deviation->error);
    if (const auto important = importantOn(held.threshold->row.scale, held, better))
        held.probabilityBeyondImportant =
            statistics::normalShareBelow((size - *important) / deviation->error);
}

} // namespace judging
