#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/change.h"

namespace telling
{

/// "better beyond error", "within error", "not comparable" …
QString written(judging::Verdict verdict, const base::Phrasebook& phrases);

/// The verdict of a comparison, and where it is within error what could not show there: "within error; a
/// change could not show here", "2 steps worse", "better beyond own scatter".
QString verdictWords(const judging::Comparison& comparison, const base::Phrasebook& phrases);

/// "A change for the better could not show here: …" of a difference within error; else empty.
QString cannotShowWords(const judging::Comparison& comparison, const base::Phrasebook& phrases);

/// One or two sentences that say why: the arithmetic against the threshold, the condition that differs or is
/// not recorded, or that no threshold is published for this population.
QString why(const judging::Comparison& comparison, const catalogue::Catalogue& catalogue,
            const base::Phrasebook& phrases);

/// The arithmetic alone, step by step, one step a line: difference, threshold, conversion, decision.
QStringList arithmetic(const judging::Comparison& comparison, const catalogue::Catalogue& catalogue,
                       const base::Phrasebook& phrases);

/// The row of evidence in one line: source, population, n, interval, confidence and its basis, read or from
/// memory.
QString written(const catalogue::Threshold& row, const catalogue::Catalogue& catalogue,
                const base::Phrasebook& phrases);

/// Cautions worth a line each: soft conditions, the limit of the scale reached, an important change hidden in
/// the error, a gap far longer than the published interval, visits in different bands.
QStringList cautions(const judging::Comparison& comparison, const catalogue::Catalogue& catalogue,
                     const base::Phrasebook& phrases);

/// The same, with those that need the earlier visits: practice, and a first result that stands apart.
QStringList cautions(const judging::Change& change, const judging::Comparison& comparison,
                     const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

} // namespace telling
