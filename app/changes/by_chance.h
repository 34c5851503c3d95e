#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/glance.h"

namespace changes
{

/// How many results of a visit error alone would flag. Empty for fewer than two that an error judges.
QString expectedByChance(const judging::Glance& glance);

/// How many people would be flagged by their courses, for who wants to know more.
QString expectedInPlan(const judging::Glance& glance, const records::Judging& judging,
                       const base::Phrasebook& phrases);

} // namespace changes
