#pragma once

#include "app/visits/examination.h"
#include "core/base/phrasebook.h"
#include "core/judging/change.h"

namespace visits
{

/// What stands beside a field: an earlier value, and whether the new one may be compared with it.
struct Earlier {
    records::Occasion occasion;
    bool isComparable = true;
};

/// For a place at a visit: the value of the reference visit where one is chosen, else the last comparable
/// one, else the last one of all, marked so. Empty where nothing was recorded before.
std::optional<Earlier> earlierValue(const Place& place, const records::Visit& visit,
                                    const std::optional<records::VisitId>& reference,
                                    const std::vector<records::Visit>& visits,
                                    const records::Patient& patient, const catalogue::Catalogue& catalogue);

/// The value that follows from another test at this visit, where none was entered ("10 m in 12.50 s").
std::optional<records::Occasion> computedValue(const Place& place, const records::Visit& visit,
                                               const catalogue::Catalogue& catalogue);

/// The comparison the form speaks about: with the reference visit where one is chosen, else with the last
/// comparable one. nullptr where there is nothing to compare with.
const judging::Comparison* meaning(const judging::Change& change,
                                   const std::optional<records::VisitId>& reference);

} // namespace visits
