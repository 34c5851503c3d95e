#pragma once

#include "core/catalogue/measure.h"
#include "core/records/visit.h"

namespace records
{

/// What a choice has to be because the hold before it was unsteady: shorter than the catalogue calls steady,
/// or tried in vain. Empty where the measure follows no hold, or the hold is not recorded, was not tried or
/// was steady.
std::optional<values::Choice> followingChoice(const catalogue::Measure& measure, const Visit& visit);

} // namespace records
