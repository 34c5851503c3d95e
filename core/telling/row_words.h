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

/// "help from a person: none or supervision": the people a row holds for. Empty where it holds for everybody.
QString conditionWords(const catalogue::Threshold& row, const catalogue::Catalogue& catalogue,
                       const base::Phrasebook& phrases);

/// "test–retest", "between raters", "internal consistency".
QString designWords(catalogue::Design design, const base::Phrasebook& phrases);

} // namespace telling
