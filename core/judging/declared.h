#pragma once

#include "core/judging/comparison.h"

namespace judging
{

/// What was not recorded and, without any word, keeps the two results apart or asks for caution.
std::vector<Mismatch> unrecorded(const Comparison& comparison, const catalogue::Catalogue& catalogue);

/// Whether a clinician's word would make the two results comparable: what keeps them apart was not recorded,
/// does not count as something else by a word about other visits, and is not declared yet.
bool mayBeDeclaredEqual(const Comparison& comparison, const records::Patient& patient);

/// The standing words a comparison rests on: the one about its own two visits, else those that reach them by
/// way of other visits. Empty where there is none, or where the two would be as comparable without it.
std::vector<records::DeclaredEqual> declarations(const Comparison& comparison,
                                                 const records::Patient& patient,
                                                 const catalogue::Catalogue& catalogue);

} // namespace judging
