#pragma once

#include "core/judging/case_summary.h"

namespace judging
{

/// Who is worse beyond chance in a list of all patients, and the order of the list.
struct CaseOrder {
    std::vector<size_t> places;       ///< of the cases, in the order they are told
    std::vector<bool> isWorseForSure; ///< of each case: stays while the share of false ones is held
};

/// The share of false ones that is allowed among those the list calls worse for sure.
inline constexpr double falseShareOfCases = 0.05;

/// Who became unable; then who is worse by how rarely error alone shows as much (Benjamini & Hochberg 1995
/// over all patients who were judged), then who is better in the same way, then the rest by name. Those of
/// whom nothing is worked out yet come last.
CaseOrder caseOrder(const std::vector<Case>& cases);

} // namespace judging
