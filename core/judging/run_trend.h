#pragma once

#include "core/judging/course.h"

namespace judging
{

/// The trend of a run; empty below three days with a number. `ends` holds its last number against its first:
/// the row it used is the one the trend is judged by.
/// A trend is sustained at the earliest the confirmation interval after it was first seen.
std::optional<Trend> trendOf(const std::vector<const records::Occasion*>& run,
                             const std::optional<Comparison>& ends, int confirmAfterDays,
                             const Ground& ground);

/// The points of a run that hold numbers, of several on one day the last.
std::vector<RunPoint> numbersByDay(const std::vector<RunPoint>& run);

/// The median of all slopes between two results of a run (Theil–Sen), the unit per year: beside the line that
/// judges, and worked out where it is told. Empty below three numbers and for grades.
std::optional<statistics::Slope> robustSlope(const Course& course, const catalogue::Measure& measure);

/// The plan a clinic watches its courses by.
statistics::Plan planOf(const records::Judging& judging);

/// How often a rule that raised a flag flags stable people; nothing where the row of the comparison is not
/// the 95 % limit of an error, so that nobody has worked it out.
std::optional<Raised> raisedBy(statistics::FlagRule rule, int visits, const Comparison& held,
                               const Ground& ground);

} // namespace judging
