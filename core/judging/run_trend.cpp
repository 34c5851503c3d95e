#include "core/judging/run_trend.h"

#include "core/statistics/mean.h"
#include "core/statistics/reliability.h"
#include "core/statistics/watch.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace judging
{

namespace
{

using records::Occasion;
using Run = std::vector<const Occasion*>;

constexpr double daysOfAYear = 365.25;
constexpr size_t fewestVisits = 3;
constexpr int provisionalUpTo = 4;
constexpr double significant = 0.05;

/// Years since the first visit, and values, one a day.
struct Series {
    std::vector<QDate> days;
    std::vector<double> daysSince; ///< the first
    std::vector<double> years;
    std::vector<double> numbers;
};

/// Of several numbers on one day the last.
void add(Series& series, QDate day, double number)
{
    if (!series.days.empty() && series.days.back() == day) {
        series.numbers.back() = number;
        return;
    }
    series.days.push_back(day);
    series.daysSince.push_back(double(series.days.front().daysTo(day)));
    series.years.push_back(series.daysSince.back() / daysOfAYear);
    series.numbers.push_back(number);
}

Series seriesOf(const Run& run)
{
    Series series;
    for (const Occasion* occasion : run) {
        if (const auto number = values::number(occasion->finding.value))
            add(series, occasion->day, *number);
    }
    return series;
}

std::optional<RunError> evenErrorOf(const catalogue::Threshold& row)
{
    if (row.scale == catalogue::Scale::Absolute) {
        const auto sem = standardErrorOf(row);
        return sem ? std::optional(RunError{false, *sem, {}, *sem}) : std::nullopt;
    }
    const auto z = row.confidence ? statistics::normalQuantile(*row.confidence) : std::nullopt;
    if (!z || values::exceeds(row.improvement, row.decline) || values::exceeds(row.decline, row.improvement))
        return std::nullopt;
    const double limit =
        row.scale == catalogue::Scale::PercentOfReference ? row.improvement / 100 : row.improvement;
    const double sem = limit / (*z * std::numbers::sqrt2);
    return RunError{true, sem, {}, sem};
}

std::vector<double> onScale(const std::vector<double>& numbers, bool isOfLogarithm)
{
    std::vector<double> scaled = numbers;
    if (isOfLogarithm)
        std::ranges::transform(scaled, scaled.begin(), [](double number) { return std::log(number); });
    return scaled;
}

Verdict verdictOfSlope(double slope, catalogue::Direction better)
{
    return (slope > 0) == (better == catalogue::Direction::HigherIsBetter) ? Verdict::Better : Verdict::Worse;
}

std::optional<Verdict> verdictOf(const statistics::Look& look, catalogue::Direction better)
{
    return look.way() == 0 ? std::nullopt : std::optional(verdictOfSlope(look.z, better));
}

bool isSeenAgain(QDate since, QDate now, int confirmAfterDays)
{
    return since < now && since.daysTo(now) >= confirmAfterDays;
}

void takeLooks(Trend& trend, const std::vector<statistics::Look>& looks, const Series& series,
               catalogue::Direction better)
{
    const size_t now = looks.size() - 1;
    const auto dayAt = [&](size_t place) { return series.days[size_t(looks[place].visit) - 1]; };
    trend.direction = verdictOf(looks[now], better);
    size_t place = statistics::firstAgreeing(looks, now);
    if (trend.direction)
        trend.since = dayAt(place);
    while (place > 0 && !trend.former) {
        const auto direction = verdictOf(looks[--place], better);
        if (direction)
            trend.former =
                FormerTrend{*direction, dayAt(statistics::firstAgreeing(looks, place)), dayAt(place)};
    }
}

std::optional<Reversal> reversalOf(const std::vector<statistics::Look>& looks, const Series& series,
                                   const std::vector<double>& scaled, catalogue::Direction better)
{
    if (looks.empty() || looks.back().way() == 0)
        return std::nullopt;
    statistics::GrowingTurn growing;
    for (const double number : scaled)
        growing.add(number);
    const statistics::Look& now = looks.back();
    const auto turn = *growing.turn();
    const auto from = size_t((now.z < 0 ? turn.highest : turn.lowest).second);
    const auto meanAt = [&](size_t second) {
        return (series.numbers[second - 1] + series.numbers[second]) / 2;
    };
    Reversal found;
    found.direction = *verdictOf(now, better);
    found.z = now.z;
    found.bound = now.bound;
    found.from = series.days[from - 1];
    found.until = series.days[from];
    found.before = meanAt(from);
    found.now = meanAt(series.numbers.size() - 1);
    found.since = series.days[size_t(looks[statistics::firstAgreeing(looks, looks.size() - 1)].visit) - 1];
    return found;
}

std::optional<RunLine> lineOf(const Series& series, const std::vector<double>& scaled)
{
    const auto slope = statistics::leastSquares(series.years, scaled, 1);
    return slope ? std::optional(RunLine{slope->value, statistics::mean(scaled) -
                                                           slope->value * statistics::mean(series.years)})
                 : std::nullopt;
}

/// The rules that look at a run anew at every visit.
void watch(Trend& trend, const Series& series, const RunError& published, const Comparison& ends,
           int confirmAfterDays, const Ground& ground)
{
    const std::vector<double> scaled = onScale(series.numbers, published.isOfLogarithm);
    const catalogue::Direction better = ground.catalogue.measure(ends.measure)->better;
    const statistics::Watched watched =
        statistics::watched(series.daysSince, scaled, published.published, planOf(ground.judging));
    if (watched.trend.empty())
        return;
    trend.error = RunError{published.isOfLogarithm, published.published, watched.own, watched.error};
    trend.line = lineOf(series, scaled);
    if (!published.isOfLogarithm)
        trend.efficient = statistics::leastSquares(series.years, series.numbers, watched.error);
    takeLooks(trend, watched.trend, series, better);
    trend.z = watched.trend.back().z;
    trend.bound = watched.trend.back().bound;
    const QDate now = series.days.back();
    if (trend.direction) {
        const bool isSustained = isSeenAgain(trend.since, now, confirmAfterDays) &&
                                 statistics::trendStands(watched, series.daysSince, scaled);
        trend.strength = isSustained ? Strength::Sustained : Strength::TrendSeenOnce;
        trend.raised = raisedBy(statistics::FlagRule::Trend, trend.n, ends, ground);
    }
    trend.reversal = reversalOf(watched.turn, series, scaled, better);
    if (!trend.reversal)
        return;
    if (isSeenAgain(trend.reversal->since, now, confirmAfterDays) && statistics::turnStands(watched, scaled))
        trend.reversal->strength = Strength::Sustained;
    trend.reversal->raised = raisedBy(statistics::FlagRule::Turn, trend.n, ends, ground);
}

/// Where no error is known, the order of the values is looked at anew at every visit.
void watchOrder(Trend& trend, const Series& series, catalogue::Direction better, int confirmAfterDays,
                const statistics::Plan& plan)
{
    const std::vector<statistics::Look> looks = statistics::watchedOrder(series.numbers, plan);
    if (looks.empty() || better == catalogue::Direction::Neither)
        return;
    takeLooks(trend, looks, series, better);
    trend.pDue = statistics::sharedDue(trend.n, plan);
    trend.orderP = *trend.pDue / std::abs(looks.back().z);
    if (!trend.direction)
        return;
    const bool isSustained = isSeenAgain(trend.since, series.days.back(), confirmAfterDays) &&
                             statistics::orderStands(looks, series.numbers, plan);
    trend.strength = isSustained ? Strength::Sustained : Strength::TrendSeenOnce;
    if (const auto rate = statistics::falseFlagRate(statistics::FlagRule::Order, trend.n, plan))
        trend.raised = Raised{statistics::FlagRule::Order, trend.n, *rate};
}

} // namespace

std::vector<RunPoint> numbersByDay(const std::vector<RunPoint>& run)
{
    std::vector<RunPoint> numbers;
    for (const RunPoint& point : run) {
        if (!point.number)
            continue;
        if (!numbers.empty() && numbers.back().day == point.day)
            numbers.pop_back();
        numbers.push_back(point);
    }
    return numbers;
}

std::optional<statistics::Slope> robustSlope(const Course& course, const catalogue::Measure& measure)
{
    if (!course.trend || measure.kind == catalogue::Kind::Grade)
        return std::nullopt;
    Series series;
    for (const RunPoint& point : numbersByDay(course.run))
        add(series, point.day, *point.number);
    return statistics::theilSen(series.years, series.numbers);
}

statistics::Plan planOf(const records::Judging& judging)
{
    constexpr double strict = 0.02;
    constexpr double sensitive = 0.10;
    statistics::Plan plan;
    plan.visits = judging.plannedVisits;
    if (judging.strictness == records::Strictness::Strict)
        plan.level = strict;
    if (judging.strictness == records::Strictness::Sensitive)
        plan.level = sensitive;
    return plan;
}

std::optional<Raised> raisedBy(statistics::FlagRule rule, int visits, const Comparison& held,
                               const Ground& ground)
{
    constexpr double judgedLevel = 0.95;
    const bool isKnown =
        held.threshold && held.threshold->row.confidence == judgedLevel && evenErrorOf(held.threshold->row);
    const auto rate =
        isKnown ? statistics::falseFlagRate(rule, visits, planOf(ground.judging)) : std::nullopt;
    return rate ? std::optional(Raised{rule, visits, *rate}) : std::nullopt;
}

std::optional<Trend> trendOf(const Run& run, const std::optional<Comparison>& ends, int confirmAfterDays,
                             const Ground& ground)
{
    const Series series = seriesOf(run);
    const catalogue::Measure* measure =
        run.empty() ? nullptr : ground.catalogue.measure(run.back()->finding.measure);
    const auto test = statistics::mannKendall(series.years, series.numbers);
    if (measure == nullptr || series.days.size() < fewestVisits || !test)
        return std::nullopt;
    Trend trend;
    trend.n = test->n;
    trend.isProvisional = test->n <= provisionalUpTo;
    trend.agreement = test->s;
    const bool isGrade = measure->kind == catalogue::Kind::Grade;
    if (isGrade) {
        watchOrder(trend, series, measure->better, confirmAfterDays, planOf(ground.judging));
        trend.p = trend.orderP ? *trend.orderP : statistics::orderP(series.numbers);
        return trend;
    }
    trend.p = test->p;
    trend.mayBeSignificant = test->smallestP <= significant;
    const auto error = ends && ends->threshold ? evenErrorOf(ends->threshold->row) : std::nullopt;
    const bool hasLogarithms = std::ranges::all_of(series.numbers, [](double number) { return number > 0; });
    if (error && (!error->isOfLogarithm || hasLogarithms))
        watch(trend, series, *error, *ends, confirmAfterDays, ground);
    else
        watchOrder(trend, series, measure->better, confirmAfterDays, planOf(ground.judging));
    return trend;
}

} // namespace judging
