#pragma once

#include "core/base/phrasebook.h"
#include "core/reading/facts.h"
#include "core/reading/patterns.h"

#include <QStringList>

namespace telling
{

/// "Heel to shin, right: unable; 12-Jan-2026: clear, task done (2)"
QString factWords(const reading::Fact& fact, const records::Visit& visit,
                  const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// One finding of a visit, as it stands in a reading: "Finger to nose, right: marked, task done in part (3);
/// decomposition". Of one that is not there: "Heel to shin, left"; with its state where it has one: "Heel to
/// shin, left (unable)".
QString placeWords(const reading::Place& place, const records::Visit& visit,
                   const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// All findings of a bearing.
QString bearingWords(const reading::Bearing& bearing, const records::Visit& visit,
                     const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// Where a rule or an urgency comes from: "NICE NG127", "Queensland Health, from memory", "common practice,
/// no source".
QString originWords(const QString& source, catalogue::Checked checked, const catalogue::Catalogue& catalogue,
                    const base::Phrasebook& phrases);

} // namespace telling
