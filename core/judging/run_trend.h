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

/// How often a rule that raised a flag flags stable people; nothing where the row of the comparison is not
/// the 95 % limit of an error, so that nobody has worked it out.
std::optional<Raised> raisedBy(statistics::FlagRule rule, int visits, const Comparison& held,
                               const Ground& ground);

} // namespace judging
