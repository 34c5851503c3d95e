#include "app/charts/axis.h"

#include "core/base/rounding.h"
#include "core/records/patient.h"

#include <algorithm>
#include <array>
#include <cmath>

using namespace Qt::StringLiterals;

namespace charts
{

namespace
{

struct Pace {
    int days = 0;
    int months = 0;
};

constexpr std::array paces{Pace{1, 0},  Pace{2, 0},   Pace{7, 0},  Pace{14, 0}, Pace{0, 1},
                           Pace{0, 2},  Pace{0, 3},   Pace{0, 6},  Pace{0, 12}, Pace{0, 24},
                           Pace{0, 60}, Pace{0, 120}, Pace{0, 240}};

double daysIn(const Pace& pace)
{
    return pace.days > 0 ? pace.days : pace.months * 30.44;
}

/// The first round date at or after the day: a Monday, the first of a month, the first of January.
QDate roundDate(QDate day, const Pace& pace)
{
    if (pace.days > 0)
        return pace.days % 7 == 0 ? day.addDays((8 - day.dayOfWeek()) % 7) : day;
    const int month = day.year() * 12 + day.month() - 1 + (day.day() > 1 ? 1 : 0);
    const int round = (month + pace.months - 1) / pace.months * pace.months;
    return QDate(round / 12, round % 12 + 1, 1);
}

QString dateWords(QDate day, const Pace& pace, bool isFirst, const base::Phrasebook& phrases)
{
    const QString number = QString::number(day.day());
    const QString month = records::monthInWords(day.month(), phrases);
    const QString year = QString::number(day.year());
    if (pace.days > 0)
        return isFirst || day.dayOfYear() <= pace.days ? phrases("%1 %2 %3").arg(number, month, year)
                                                       : phrases("%1 %2").arg(number, month);
    if (pace.months >= 12)
        return year;
    return isFirst || day.month() == 1 ? phrases("%1 %2").arg(month, year) : month;
}

/// 1, 2 or 5 times a power of ten, at least `least`.
double roundStep(double least)
{
    const double power = std::pow(10, std::floor(std::log10(least)));
    for (const double times : {1.0, 2.0, 5.0}) {
        if (times * power >= least * (1 - 1e-9))
            return times * power;
    }
    return 10 * power;
}

/// With no more decimals than the step has.
QString tickWords(double at, double step)
{
    const int decimals = std::max(0, -int(std::floor(std::log10(step) + 1e-9)));
    const QString words = base::fixed(at, decimals);
    return words.toDouble() == 0 ? QString::number(0) : words;
}

void widen(double& from, double& to, double least)
{
    const double lacking = std::max(0.0, least - (to - from));
    from -= lacking / 2;
    to += lacking / 2;
}

Axis stepAxis(const std::vector<TrendStep>& steps)
{
    Axis axis{steps.front().number - 0.5, steps.back().number + 0.5, {}};
    for (const TrendStep& step : steps)
        axis.ticks.push_back({step.number, step.words});
    return axis;
}

std::vector<double> heights(const TrendPoints& points)
{
    std::vector<double> found;
    for (const TrendTarget& target : points.targets)
        found.push_back(target.number);
    for (const TrendLine& line : points.lines) {
        const double error = 1.96 * line.standardError.value_or(0);
        for (const TrendEntry& entry : line.entries) {
            if (entry.number)
                found.insert(found.end(), {*entry.number - error, *entry.number + error});
        }
        if (line.limits && line.limits->improved)
            found.push_back(*line.limits->improved);
        if (line.limits && line.limits->declined)
            found.push_back(*line.limits->declined);
        for (const TrendSlope& slope : line.slopes) {
            for (const auto& point : slope.points)
                found.push_back(point.second);
        }
    }
    return found;
}

} // namespace

Axis daysAxis(QDate from, QDate to)
{
    double first = double(from.toJulianDay());
    double last = double(to.toJulianDay());
    widen(first, last, 28);
    const double margin = (last - first) * 0.03;
    return {first - margin, last + margin, {}};
}

Axis withDates(Axis days, int most, const base::Phrasebook& phrases)
{
    days.ticks.clear();
    const auto pace = std::ranges::find_if(
        paces, [&](const Pace& each) { return (days.to - days.from) / daysIn(each) <= most; });
    const Pace& chosen = pace == paces.end() ? paces.back() : *pace;
    QDate day = roundDate(QDate::fromJulianDay(qint64(std::ceil(days.from))), chosen);
    while (double(day.toJulianDay()) <= days.to) {
        days.ticks.push_back(
            {double(day.toJulianDay()), dateWords(day, chosen, days.ticks.empty(), phrases)});
        day = chosen.days > 0 ? day.addDays(chosen.days) : day.addMonths(chosen.months);
    }
    return days;
}

Axis valueAxis(const TrendPoints& points)
{
    if (!points.steps.empty())
        return stepAxis(points.steps);
    const std::vector<double> all = heights(points);
    if (all.empty())
        return {};
    auto [lowest, highest] = std::ranges::minmax(all);
    const double finest = points.finest.value_or(0.01);
    widen(lowest, highest, std::max({finest * 5, std::abs(highest) * 0.2}));
    const double step = std::max(finest, roundStep((highest - lowest) / 4));
    double from = std::floor(lowest / step + 1e-9) * step;
    double to = std::ceil(highest / step - 1e-9) * step;
    if (points.lowest)
        from = std::max(from, *points.lowest);
    if (points.highest)
        to = std::min(to, *points.highest);
    const double margin = (to - from) * 0.05;
    Axis axis{from - margin, to + margin, {}};
    const double above = std::ceil(from / step - 1e-9) * step;
    for (int i = 0; above + i * step <= to + step * 1e-6; ++i)
        axis.ticks.push_back({above + i * step, tickWords(above + i * step, step)});
    return axis;
}

Axis roundAxis(double low, double high)
{
    const double margin = high > low ? (high - low) * 0.08 : std::max(1.0, std::abs(high) * 0.1);
    Axis axis{low - margin, high + margin, {}};
    const double step = roundStep((axis.to - axis.from) / 6);
    const double first = std::ceil(axis.from / step);
    for (int each = 0; (first + each) * step <= axis.to; ++each)
        axis.ticks.push_back({(first + each) * step, tickWords((first + each) * step, step)});
    return axis;
}

} // namespace charts
