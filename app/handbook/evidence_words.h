#pragma once

#include "core/base/phrasebook.h"
#include "core/catalogue/catalogue.h"

namespace handbook
{

/// What the row answers: "error" (beyond measurement error?) or "importance" (does the change matter?).
QString answerWords(const catalogue::Threshold& row);
/// On its own scale, as published: "0.18 m/s", "20 %", "5 points better, 7 points worse".
QString valueWords(const catalogue::Threshold& row, const catalogue::Measure& measure,
                   const base::Phrasebook& phrases);
/// "Older adults", "Stroke, chronic, 0.40 to under 0.80 m/s": the population and the level it holds for.
QString peopleWords(const catalogue::Threshold& row, const catalogue::Catalogue& catalogue,
                    const base::Phrasebook& phrases);
/// "95 %, stated", "empirical"; empty for an important change without one.
QString confidenceWords(const catalogue::Threshold& row, const base::Phrasebook& phrases);
/// "Steffen & Seney 2008, from memory"; the clinic's own is marked.
QString originWords(const catalogue::Threshold& row, const catalogue::Catalogue& catalogue);
/// What the five above leave out, a line each: circumstances, note, reference.
QStringList detailWords(const catalogue::Threshold& row, const catalogue::Catalogue& catalogue,
                        const base::Phrasebook& phrases);

/// "https://doi.org/10.1016/…"; empty where no DOI is known.
QString linkOf(const catalogue::Source& source);

} // namespace handbook
