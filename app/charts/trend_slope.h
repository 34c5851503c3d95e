#pragma once

#include "app/charts/trend_points.h"
#include "core/judging/course.h"

namespace charts
{

/// The Theil–Sen line of a course, through the median of what each number leaves over its slope: from the day
/// of its first number to the day of its last, never further. Empty where the course has no slope: below
/// three comparable visits, and for grades.
std::optional<TrendSlope> trendSlope(const judging::Course& course);

} // namespace charts
