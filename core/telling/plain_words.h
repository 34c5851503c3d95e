#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/outcome.h"

namespace telling
{

/// What a change comes to in one or two sentences that ask for no statistics: "13.6 s now against 9.8 s on
/// 14-Nov-2022: more than measurement error explains. All 9 comparable visits together say so since
/// 27-Nov-2025, whichever of the last three is left out."
QString plainWords(const judging::Outcome& outcome, const judging::Change& change,
                   const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

} // namespace telling
