#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/standing.h"

namespace telling
{

/// "1.3 SD slower than the mean of 9 s (SD 2 s) of women of 70 to 79, percentile 10 (Steffen 2002, …)": what
/// the answer says, with population, n, source, and the mark of a number from memory.
QString written(const judging::Standing& standing, const catalogue::Measure& measure,
                const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// Every answer, one a line, each with the caution of its source, the most serious first: two standard
/// deviations to the worse, below a lower limit or beyond a cut-off, then outside a range, then the rest.
/// None takes back what one before it says.
QStringList standingLines(const std::vector<judging::Standing>& standings, const catalogue::Measure& measure,
                          const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// The first of these, for where there is room for one; without the caution. Equally serious ones: read
/// before from memory, then a place among people before a mean, a named level and a cut-off. What is missing
/// where nothing answers; empty without standings.
QString standingInOneLine(const std::vector<judging::Standing>& standings, const catalogue::Measure& measure,
                          const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

} // namespace telling
