#include "core/judging/own_scatter.h"

#include "core/judging/room.h"
#include "core/statistics/mean.h"
#include "core/statistics/scatter.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace judging
{

namespace
{

using records::Occasion;

constexpr size_t fewestEarlier = 4;

/// Of a value rounded to its step: step / √12. Of a time taken by hand a tenth of a second (from memory: the
/// human reaction adds 0.1 to 0.2 s).
double leastDeviation(const catalogue::Measure& measure)
{
    constexpr double ofAHand = 0.1;
    const double rounding = measure.step.value_or(0) / (2 * std::numbers::sqrt3);
    return measure.unit == values::Unit::Second ? std::max(rounding, ofAHand) : rounding;
}

} // namespace

std::optional<OwnScatter> ownScatterOf(const std::vector<const Occasion*>& run,
                                       const catalogue::Measure& measure, const statistics::Plan& plan)
{
    std::vector<double> numbers;
    QDate day;
    for (const Occasion* occasion : run) {
        const auto number = values::number(occasion->finding.value);
        const bool isLast = occasion == run.back();
        if (!number || isAtCap(occasion->finding, measure)) {
            if (isLast)
                return std::nullopt;
            continue;
        }
        if (!numbers.empty() && day == occasion->day)
            numbers.pop_back();
        numbers.push_back(*number);
        day = occasion->day;
    }
    if (numbers.size() <= fewestEarlier)
        return std::nullopt;
    const auto earlier = std::span(numbers).first(numbers.size() - 1);
    statistics::GrowingScatter scatter;
    for (const double number : earlier)
        scatter.add(number);
    const auto limit =
        statistics::scatterLimit(int(earlier.size()), statistics::sharedDue(int(numbers.size()), plan));
    OwnScatter own;
    own.visits = int(earlier.size());
    own.mean = statistics::mean(earlier);
    own.deviation = std::max(scatter.scatter()->deviation, leastDeviation(measure));
    own.degrees = scatter.scatter()->degrees;
    if (!limit || !(own.deviation > 0))
        return std::nullopt;
    own.limit = *limit;
    own.t = (numbers.back() - own.mean) / (own.deviation * std::sqrt(1 + 1.0 / own.visits));
    return own;
}

void judgeByOwn(Comparison& held, const OwnScatter& own, const statistics::Plan& plan,
                catalogue::Direction better)
{
    if (held.threshold || !held.difference || better == catalogue::Direction::Neither)
        return;
    held.tier = Tier::OwnScatter;
    held.own = own;
    held.verdict = Verdict::WithinError;
    held.strength = Strength::None;
    held.since.reset();
    held.raised.reset();
    if (std::abs(own.t) <= own.limit)
        return;
    const bool isBetter = (own.t > 0) == (better == catalogue::Direction::HigherIsBetter);
    held.verdict = isBetter ? Verdict::Better : Verdict::Worse;
    held.since = held.now.day;
    held.strength = Strength::SeenOnce;
    const int visits = own.visits + 1;
    if (const auto rate = statistics::falseFlagRate(statistics::FlagRule::OwnScatter, visits, plan))
        held.raised = Raised{statistics::FlagRule::OwnScatter, visits, *rate};
}

} // namespace judging
