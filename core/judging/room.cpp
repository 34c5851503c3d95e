#include "core/judging/room.h"

#include <cmath>
#include <limits>

namespace judging
{

namespace
{

using catalogue::Direction;
using catalogue::Measure;

/// The highest value that can be recorded: a trial is stopped at its cap, which lies within the range.
std::optional<double> topOf(const Measure& measure)
{
    return measure.cap ? measure.cap : measure.highest;
}

} // namespace

double valueAtLimit(const Applied& threshold, double reference, bool isForTheBetter, Direction better)
{
    constexpr int steps = 60; // each step of a share of the mean halves what is left at least
    const double sign = isForTheBetter == (better == Direction::HigherIsBetter) ? 1 : -1;
    double value = reference;
    for (int step = 0; step < steps; ++step) {
        const auto at = applied(threshold.row, reference, value, better);
        if (!at)
            return std::numeric_limits<double>::infinity();
        value = reference + sign * threshold.factor * (isForTheBetter ? at->improvement : at->decline);
    }
    return value;
}

CannotShow cannotShow(const Applied& threshold, double reference, const Measure& measure)
{
    const bool isHigherBetter = measure.better == Direction::HigherIsBetter;
    const auto bottom = measure.lowest;
    const auto top = topOf(measure);
    const auto isHidden = [&](const std::optional<double>& end, Verdict verdict) {
        return end && verdictOf(threshold, reference, *end, measure.better) != verdict;
    };
    return {isHidden(isHigherBetter ? top : bottom, Verdict::Better),
            isHidden(isHigherBetter ? bottom : top, Verdict::Worse)};
}

bool isAtCap(const records::Finding& finding, const Measure& measure)
{
    const auto number = values::number(finding.value);
    return finding.capReached || (measure.cap && number && !values::exceeds(*measure.cap, *number));
}

std::optional<double> inLimits(const Comparison& comparison, Direction better)
{
    if (!comparison.difference || !comparison.threshold || better == Direction::Neither)
        return std::nullopt;
    const double difference = *comparison.difference;
    return (better == Direction::HigherIsBetter ? difference : -difference) /
           comparison.threshold->limitFor(difference, better);
}

} // namespace judging
