#pragma once

#include "core/base/phrasebook.h"
#include "core/catalogue/catalogue.h"

namespace telling
{

/// "women of 70 to 79", "adults of 65 and over, dominant hand": whom a reference value holds for.
QString written(const catalogue::Whom& whom, const base::Phrasebook& phrases);

/// "Bohannon 1997, healthy adults, n 230, timed over 7.62 m, from memory".
QString sourceWords(const catalogue::Whom& whom, const catalogue::Origin& origin,
                    const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// "under 0.4 m/s", "0.4 to under 0.8 m/s", "12 s and more": the part of the scale a band holds for.
QString span(const catalogue::Band& band, const catalogue::Measure& measure, const base::Phrasebook& phrases);

/// Every reference value of a measure, one a line with its source, in the catalogue's order: means and
/// ranges, predictions, named levels, cut-offs. Empty where there is none.
QStringList referenceWords(const QString& measure, const catalogue::Catalogue& catalogue,
                           const base::Phrasebook& phrases);

} // namespace telling
