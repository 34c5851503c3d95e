#include "core/judging/run_trend.h"

#include "core/statistics/reliability.h"
#include "core/statistics/sequential.h"

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
    std::vector<double> years;
    std::vector<double> numbers;
};

Series seriesOf(const Run& run)
{
    Series series;
    for (const Occasion* occasion : run) {
        const auto number = values::number(occasion->finding.value);
        if (!number)
            continue;
        if (!series.days.empty() && series.days.back() == occasion->day) {
            series.numbers.back() = *number;
            continue;
        }
        series.days.push_back(occasion->day);
        series.years.push_back(double(series.days.front().daysTo(occasion->day)) / daysOfAYear);
        series.numbers.push_back(*number);
    }
    return series;
}

/// The standard error of one measurement, where it is the same at every level: of the value, or of its
/// natural logarithm.
struct EvenError {
    bool isOfLogarithm = false;
    double sem = 0;
};

std::optional<EvenError> evenErrorOf(const catalogue::Threshold& row)
{
    if (row.scale == catalogue::Scale::Absolute) {
        const auto sem = standardErrorOf(row);
        return sem ? std::optional(EvenError{false, *sem}) : std::nullopt;
    }
    const auto z = row.confidence ? statistics::normalQuantile(*row.confidence) : std::nullopt;
    if (!z || values::exceeds(row.improvement, row.decline) || values::exceeds(row.decline, row.improvement))
        return std::nullopt;
    const double limit =
        row.scale == catalogue::Scale::PercentOfReference ? row.improvement / 100 : row.improvement;
    return EvenError{true, limit / (*z * std::numbers::sqrt2)};
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

/// One look at the slope, at a visit as it came.
struct Look {
    QDate day;
    double z = 0;
    double bound = 0;
    std::optional<Verdict> flag;
};

std::optional<Verdict> flagOf(double z, double bound, catalogue::Direction better)
{
    return std::abs(z) > bound ? std::optional(verdictOfSlope(z, better)) : std::nullopt;
}

std::vector<Look> looksAt(const Series& series, const std::vector<double>& scaled, double sem,
                          catalogue::Direction better, int plannedVisits)
{
    std::vector<Look> looks;
    statistics::GrowingSlope slope;
    for (size_t visits = 1; visits <= scaled.size(); ++visits) {
        slope.add(series.years[visits - 1], scaled[visits - 1]);
        const auto z = slope.inErrors(sem);
        const auto bound = statistics::sequentialBound(int(visits), plannedVisits);
        if (z && bound)
            looks.push_back({series.days[visits - 1], *z, *bound, flagOf(*z, *bound, better)});
    }
    return looks;
}

/// Whether the flag would stand without any one of the last three visits, so that no single one raised it.
bool standsWithoutAnyOne(const Look& now, const Series& series, const std::vector<double>& scaled, double sem,
                         catalogue::Direction better)
{
    constexpr size_t last = 3;
    for (size_t without = scaled.size() - std::min(last, scaled.size()); without < scaled.size(); ++without) {
        statistics::GrowingSlope slope;
        for (size_t i = 0; i < scaled.size(); ++i) {
            if (i != without)
                slope.add(series.years[i], scaled[i]);
        }
        const auto z = slope.inErrors(sem);
        if (!z || flagOf(*z, now.bound, better) != now.flag)
            return false;
    }
    return true;
}

/// The first of the looks up to `last` that agree with it without a break.
size_t firstAgreeing(const std::vector<Look>& looks, size_t last)
{
    size_t first = last;
    while (first > 0 && looks[first - 1].flag == looks[last].flag)
        --first;
    return first;
}

void takeLooks(Trend& trend, const std::vector<Look>& looks)
{
    const size_t now = looks.size() - 1;
    trend.z = looks[now].z;
    trend.bound = looks[now].bound;
    trend.direction = looks[now].flag;
    size_t place = firstAgreeing(looks, now);
    if (trend.direction)
        trend.since = looks[place].day;
    while (place > 0) {
        const Look& before = looks[--place];
        if (!before.flag)
            continue;
        trend.former = FormerTrend{*before.flag, looks[firstAgreeing(looks, place)].day, before.day};
        break;
    }
}

} // namespace

std::optional<Raised> raisedBy(statistics::FlagRule rule, int visits, const Comparison& held,
                               const Ground& ground)
{
    constexpr double simulatedLevel = 0.95;
    const bool isSimulated = held.threshold && held.threshold->row.confidence == simulatedLevel &&
                             evenErrorOf(held.threshold->row);
    const auto rate =
        isSimulated ? statistics::falseFlagRate(rule, visits, ground.judging.plannedVisits) : std::nullopt;
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
    if (measure->kind == catalogue::Kind::Grade)
        return trend;
    trend.mayBeSignificant = test->smallestP <= significant;
    trend.p = test->p;
    trend.perYear = statistics::theilSen(series.years, series.numbers);

    const auto error = ends && ends->threshold ? evenErrorOf(ends->threshold->row) : std::nullopt;
    const bool hasLogarithms = std::ranges::all_of(series.numbers, [](double number) { return number > 0; });
    if (!error || (error->isOfLogarithm && !hasLogarithms))
        return trend;
    if (!error->isOfLogarithm)
        trend.efficient = statistics::leastSquares(series.years, series.numbers, error->sem);
    const std::vector<double> scaled = onScale(series.numbers, error->isOfLogarithm);
    const std::vector<Look> looks =
        looksAt(series, scaled, error->sem, measure->better, ground.judging.plannedVisits);
    if (looks.empty())
        return trend;
    takeLooks(trend, looks);
    if (!trend.direction)
        return trend;
    const bool isSustained = trend.since < looks.back().day &&
                             trend.since.daysTo(looks.back().day) >= confirmAfterDays &&
                             standsWithoutAnyOne(looks.back(), series, scaled, error->sem, measure->better);
    trend.strength = isSustained ? Strength::Sustained : Strength::TrendSeenOnce;
    trend.raised = raisedBy(statistics::FlagRule::Sequential, trend.n, *ends, ground);
    return trend;
}

} // namespace judging
