#pragma once

#include "core/judging/change.h"
#include "core/letters/composition.h"

#include <QStringList>

namespace letters
{

/// What the letter's visit says against earlier visits.
std::vector<judging::Change> changesOf(const Material& material, const catalogue::Catalogue& catalogue);

/// The change of one measure and side; nullptr where there is none.
const judging::Change* changeOf(const std::vector<judging::Change>& changes, const QString& measure,
                                records::Side side);

/// The comparison with the reference visit where it was chosen and holds the measure, else with the last
/// comparable.
const std::optional<judging::Comparison>& earlierOf(const judging::Change& change);

/// Which conditions keep two results from being compared: "walking aid was “none”, now “stick”".
QString whyNotComparable(const judging::Comparison& comparison, const catalogue::Catalogue& catalogue,
                         const base::Phrasebook& phrases);

/// Nothing was recorded, or that it was not asked.
bool isNotAsked(const records::Finding* finding);

/// The tests the visit's form asks for that have no result, and others that were left out, an entry for each
/// reason: "A, B", "C, D (not attempted: shoulder pain)".
QStringList notDone(const Material& material, const catalogue::Catalogue& catalogue,
                    const base::Phrasebook& phrases);

/// "Walking aid: stick": those of the visit that a test done at it depends on, then those of single tests,
/// then what was not recorded and kept something from being compared.
QStringList conditionLines(const Material& material, const catalogue::Catalogue& catalogue,
                           const base::Phrasebook& phrases);

/// The composite confirmed worsening up to the letter's visit, where the clinic has switched it on.
QStringList compositeLines(const Material& material, const catalogue::Catalogue& catalogue,
                           const base::Phrasebook& phrases);

} // namespace letters
