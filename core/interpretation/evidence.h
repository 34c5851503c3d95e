#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/conditions.h"

#include <map>

namespace interpretation
{

/// What decides which published rows fit one comparison.
struct Circumstances {
    QString population;               ///< the patient's; empty: none fits
    QString hand;                     ///< "dominant" or "non-dominant" for a hand measure; empty: not known
    std::map<QString, double> levels; ///< measure id to its value at the reference visit, for banded rows
    records::Conditions
        conditions; ///< of both visits; where they differ, neither's words, so that no row fits
};

/// The row used, and the rows that fit but were not used, best first.
struct Evidence {
    std::optional<catalogue::Threshold> used;
    std::vector<catalogue::Threshold> notUsed;
};

/// The row for a comparison: of the patient's population, else of a broader one, never of a neighbour; a
/// value read before one from memory; test–retest before between raters; then the larger n.
Evidence evidence(const catalogue::Catalogue& catalogue, const QString& measure, catalogue::Answers answers,
                  const Circumstances& circumstances);

} // namespace interpretation
