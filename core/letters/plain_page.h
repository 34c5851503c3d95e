#pragma once

#include "core/catalogue/catalogue.h"
#include "core/letters/composition.h"

namespace letters
{

/// "12 March 2026"
QString plainDay(const QDate& day, const base::Phrasebook& phrases);

/// What the visit comes to as sentences to the patient: second person, no abbreviations, no test's name where
/// the catalogue says plainly what is looked at. The weightiest numbers first, then what was seen; at most
/// ten sentences.
QStringList plainSentences(const Material& material, const catalogue::Catalogue& catalogue,
                           const base::Phrasebook& phrases);

} // namespace letters
