#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/case_summary.h"

namespace telling
{

/// The strongest change of a patient in a few words: "worse, sustained: Timed up and go", "as before",
/// "first results"; empty where none was worked out.
QString strongestWords(const judging::Case& each, const catalogue::Catalogue& catalogue,
                       const base::Phrasebook& phrases);

/// A patient in one line of a list without columns.
QString caseLine(const judging::Case& each, const std::optional<QDate>& due,
                 const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

} // namespace telling
