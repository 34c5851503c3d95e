#pragma once

#include "core/base/phrasebook.h"
#include "core/interpretation/comparison.h"

namespace interpretation
{

/// What was not recorded and, without any word, keeps the two results apart or asks for caution.
std::vector<Mismatch> unrecorded(const Comparison& comparison, const catalogue::Catalogue& catalogue);

/// "Not recorded on 03-Mar-2026: walking aid, footwear. Not recorded at either visit: surface."
QString unrecordedWords(const std::vector<Mismatch>& missing, const Comparison& comparison,
                        const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// Whether a clinician's word would make the two results comparable: what keeps them apart was not recorded,
/// does not count as something else by a word about other visits, and is not declared yet.
bool mayBeDeclaredEqual(const Comparison& comparison, const records::Patient& patient);

/// The standing words a comparison rests on: the one about its own two visits, else those that reach them by
/// way of other visits. Empty where there is none, or where the two would be as comparable without it.
std::vector<records::DeclaredEqual> declarations(const Comparison& comparison,
                                                 const records::Patient& patient,
                                                 const catalogue::Catalogue& catalogue);

/// What was not recorded, and who declared it the same, when and why. Empty where the comparison rests on no
/// such word. `visits` give the days of other visits.
QString declaredWords(const Comparison& comparison, const records::Patient& patient,
                      const std::vector<records::Visit>& visits, const catalogue::Catalogue& catalogue,
                      const base::Phrasebook& phrases);

} // namespace interpretation
