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

/// Looks at the slope at each visit as it came. A flag stays while the slope keeps its direction.
void lookAgain(Trend& trend, const Series& series, const EvenError& error, catalogue::Direction better,
               int plannedVisits)
{
    const std::vector<double> scaled = onScale(series.numbers, error.isOfLogarithm);
    statistics::GrowingSlope slope;
    for (size_t visits = 1; visits <= scaled.size(); ++visits) {
        slope.add(series.years[visits - 1], scaled[visits - 1]);
        if (visits < statistics::firstLook)
            continue;
        const auto z = slope.inErrors(error.sem);
        const auto bound = statistics::sequentialBound(int(visits), plannedVisits);
        if (!z || !bound)
            return;
        trend.z = z;
        trend.bound = bound;
        const Verdict verdict = verdictOfSlope(*z, better);
        if (trend.sustained && *trend.sustained != verdict) {
            trend.sustained.reset();
            trend.sustainedSince.reset();
        }
        if (!trend.sustained && std::abs(*z) > *bound) {
            trend.sustained = verdict;
            trend.sustainedSince = series.days[visits - 1];
        }
    }
}

} // namespace

std::optional<Trend> trendOf(const Run& run, const std::optional<Comparison>& ends, const Ground& ground)
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
    lookAgain(trend, series, *error, measure->better, ground.judging.plannedVisits);
    return trend;
}

} // namespace judging
