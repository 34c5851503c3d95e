#include "app/charts/trend_slope.h"

#include <algorithm>

namespace charts
{

namespace
{

constexpr double daysOfAYear = 365.25;

double yearsBetween(QDate from, QDate to)
{
    return double(from.daysTo(to)) / daysOfAYear;
}

/// The numbers of a run, of several on one day the last.
std::vector<judging::RunPoint> numbersOf(const judging::Course& course)
{
    std::vector<judging::RunPoint> numbers;
    for (const judging::RunPoint& point : course.run) {
        if (!point.number)
            continue;
        if (!numbers.empty() && numbers.back().day == point.day)
            numbers.pop_back();
        numbers.push_back(point);
    }
    return numbers;
}

double median(std::vector<double> numbers)
{
    std::ranges::sort(numbers);
    const size_t half = numbers.size() / 2;
    return numbers.size() % 2 == 1 ? numbers[half] : (numbers[half - 1] + numbers[half]) / 2;
}

} // namespace

std::optional<TrendSlope> trendSlope(const judging::Course& course)
{
    const auto numbers = numbersOf(course);
    if (!course.trend || !course.trend->perYear || numbers.empty())
        return std::nullopt;
    const double perYear = course.trend->perYear->value;
    TrendSlope slope;
    slope.from = numbers.front().day;
    slope.to = numbers.back().day;
    slope.visits = course.trend->n;
    slope.isProvisional = course.trend->isProvisional;
    std::vector<double> left;
    left.reserve(numbers.size());
    for (const judging::RunPoint& point : numbers)
        left.push_back(*point.number - perYear * yearsBetween(slope.from, point.day));
    slope.atFrom = median(left);
    slope.atTo = slope.atFrom + perYear * yearsBetween(slope.from, slope.to);
    return slope;
}

} // namespace charts
