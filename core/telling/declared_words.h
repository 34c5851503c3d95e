#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/comparison.h"

namespace telling
{

/// "Not recorded on 03-Mar-2026: walking aid, footwear. Not recorded at either visit: surface."
QString unrecordedWords(const std::vector<judging::Mismatch>& missing, const judging::Comparison& comparison,
                        const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// What was not recorded, and who declared it the same, when and why. Empty where the comparison rests on no
/// such word. `visits` give the days of other visits.
QString declaredWords(const judging::Comparison& comparison, const records::Patient& patient,
                      const std::vector<records::Visit>& visits, const catalogue::Catalogue& catalogue,
                      const base::Phrasebook& phrases);

} // namespace telling
