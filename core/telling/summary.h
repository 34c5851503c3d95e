#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/glance.h"
#include "core/judging/target_progress.h"

namespace telling
{

enum class LineKind { Worse, Changed, Better, NotCompared, Missing, NothingNew };

/// "worse", "changed", "better", "not-compared", "missing" or "nothing-new".
QString code(LineKind kind);

/// One of the lines that say what a colleague would say at the door.
struct SummaryLine {
    LineKind kind = LineKind::NothingNew;
    QString label;              ///< "Worse"
    QString text;               ///< what stands after it
    int results = 0;            ///< how many it speaks of, each side for itself
    QStringList measures;       ///< ids of all it speaks of, each once, the weightiest first
    std::optional<QDate> since; ///< since when what it names first is so
};

/// At most five, in the order of their weight, each only where there is something to say; nothing new is one
/// sentence. Made from what was recorded alone: never a diagnosis. What could be chance among so many results
/// is told apart from what is not. How targets stand is said at the end of the first line, of those reached
/// beyond error at the end of what is better, where that is said. Of each part of a line `named` results are
/// told and the others counted.
std::vector<SummaryLine> summary(const judging::Glance& glance, const catalogue::Catalogue& catalogue,
                                 const base::Phrasebook& phrases,
                                 const std::vector<judging::TargetProgress>& targets = {},
                                 qsizetype named = 4);

} // namespace telling
