#pragma once

#include "app/charts/trend_points.h"
#include "core/judging/course.h"

namespace charts
{

/// The lines of a course: the one that judges, where its error is known, bent where that is one of the
/// logarithm; and the Theil–Sen line, through the median of what each number leaves over its slope, where
/// that is told. None below three comparable visits, and for grades.
std::vector<TrendSlope> trendSlopes(const judging::Course& course, const catalogue::Measure& measure);

} // namespace charts
