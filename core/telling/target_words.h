#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/target_progress.h"

namespace telling
{

/// What is to be reached: "at least 400 m by 12-Mar-2027", "at most 12.0 s", "clear, task done (2) or
/// better".
QString goalWords(const records::Target& target, const catalogue::Measure& measure,
                  const base::Phrasebook& phrases);

/// How it stands: "reached beyond error", "reached; the change since it was agreed is within error", "not
/// reached, and its day has passed".
QString standingWords(const judging::TargetProgress& progress, const base::Phrasebook& phrases);

/// A part of a line: "target: 6-minute walk distance at least 400 m by 12-Mar-2027, not reached".
QString targetPart(const judging::TargetProgress& progress, const catalogue::Measure& measure,
                   const base::Phrasebook& phrases);

/// The whole as one sentence: "6-minute walk distance: at least 400 m by 12-Mar-2027; 371 m on 03-Feb-2027,
/// not reached."
QString targetWords(const judging::TargetProgress& progress, const catalogue::Measure& measure,
                    const base::Phrasebook& phrases);

} // namespace telling
