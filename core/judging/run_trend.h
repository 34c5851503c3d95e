#pragma once

#include "core/judging/course.h"

namespace judging
{

/// The trend of a run; empty below three days with a number. `ends` holds its last number against its first:
/// the row it used is the one the trend is judged by.
std::optional<Trend> trendOf(const std::vector<const records::Occasion*>& run,
                             const std::optional<Comparison>& ends, const Ground& ground);

} // namespace judging
