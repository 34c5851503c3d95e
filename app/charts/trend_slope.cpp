#include "app/charts/trend_slope.h"

#include "core/judging/run_trend.h"
#include "core/telling/course_words.h"

#include <algorithm>
#include <cmath>

namespace charts
{

namespace
{

constexpr double daysOfAYear = 365.25;

double yearsBetween(QDate from, QDate to)
{
    return double(from.daysTo(to)) / daysOfAYear;
}

double median(std::vector<double> numbers)
{
    std::ranges::sort(numbers);
    const size_t half = numbers.size() / 2;
    return numbers.size() % 2 == 1 ? numbers[half] : (numbers[half - 1] + numbers[half]) / 2;
}

TrendSlope judgingLine(const std::vector<judging::RunPoint>& numbers, const judging::Trend& trend)
{
    TrendSlope slope;
    slope.judges = true;
    const bool isBent = trend.error->isOfLogarithm;
    for (const judging::RunPoint& point : numbers) {
        const bool isEnd = point.day == numbers.front().day || point.day == numbers.back().day;
        if (!isEnd && !isBent)
            continue;
        const double height =
            trend.line->atFirst + trend.line->perYear * yearsBetween(numbers.front().day, point.day);
        slope.points.emplace_back(point.day, isBent ? std::exp(height) : height);
    }
    return slope;
}

TrendSlope robustLine(const std::vector<judging::RunPoint>& numbers, double perYear)
{
    const QDate first = numbers.front().day;
    std::vector<double> left;
    left.reserve(numbers.size());
    for (const judging::RunPoint& point : numbers)
        left.push_back(*point.number - perYear * yearsBetween(first, point.day));
    const double start = median(left);
    TrendSlope slope;
    for (const QDate day : {first, numbers.back().day})
        slope.points.emplace_back(day, start + perYear * yearsBetween(first, day));
    return slope;
}

} // namespace

std::vector<TrendSlope> trendSlopes(const judging::Course& course, const catalogue::Measure& measure)
{
    std::vector<TrendSlope> slopes;
    const auto numbers = judging::numbersByDay(course.run);
    if (!course.trend || numbers.empty())
        return slopes;
    if (course.trend->error && course.trend->line)
        slopes.push_back(judgingLine(numbers, *course.trend));
    if (const auto robust = judging::robustSlope(course, measure);
        robust && telling::isTold(*robust, measure))
        slopes.push_back(robustLine(numbers, robust->value));
    for (TrendSlope& slope : slopes) {
        slope.visits = course.trend->n;
        slope.isProvisional = course.trend->isProvisional;
    }
    return slopes;
}

} // namespace charts
