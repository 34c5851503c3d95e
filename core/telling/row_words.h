#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/comparison.h"

namespace telling
{

/// What speaks for the row used: "of the patient's population, test–retest, between days, read in the source,
/// n 37". A clinician's choice comes first: "chosen by A. Halden on 12-Mar-2026 (“same protocol”), of …".
/// Empty without a threshold.
QString whyThisRow(const judging::Comparison& comparison, const catalogue::Catalogue& catalogue,
                   const base::Phrasebook& phrases);

/// Who chose the row used, when and why; empty where the rule did.
QString choiceWords(const judging::Comparison& comparison, const base::Phrasebook& phrases);

/// What speaks against a row that fits: "of a wider group (Stroke)", "from memory".
QString whyNotUsed(const judging::NotUsed& notUsed, const catalogue::Catalogue& catalogue,
                   const base::Phrasebook& phrases);

/// "test–retest", "between raters", "internal consistency".
QString designWords(catalogue::Design design, const base::Phrasebook& phrases);

/// "stated", "inferred", "assumed", "empirical": where the confidence level comes from.
QString basisWords(catalogue::Basis basis, const base::Phrasebook& phrases);

/// "6 to 8 days", "two trials in one session": what lay between the repeats. Empty where it is not known.
QString intervalWords(const catalogue::Threshold& row, const base::Phrasebook& phrases);

/// "the mean of 2 trials"; empty where the source does not say.
QString trialsWords(const catalogue::Threshold& row, const base::Phrasebook& phrases);

} // namespace telling
