#pragma once

#include "core/catalogue/measure.h"
#include "core/values/value.h"

namespace records
{

/// What a measure is when nothing is wrong: the best grade, or the word normal, none or negative. Empty for
/// measures that have no such answer.
std::optional<values::Value> normalValue(const catalogue::Measure& measure);

} // namespace records
