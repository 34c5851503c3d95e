#pragma once

#include "app/changes/rows.h"

namespace changes
{

/// How sure the verdict is, as HTML: its weight, its strength, how often the rule that raised it flags stable
/// people, and whether it stays within the screen's bound. Empty where nothing can be said.
QString certaintySection(const Row& row, const catalogue::Catalogue& catalogue,
                         const records::Judging& judging, const base::Phrasebook& phrases);

} // namespace changes
