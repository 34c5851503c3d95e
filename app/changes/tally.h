#pragma once

#include "app/changes/rows.h"

namespace changes
{

/// How many rows are better, worse and so on; the first sentence above the table. Where the screen's bound
/// is held, how many flags stay besides.
QString tally(const std::vector<Row>& rows, bool isHeld = false);

/// How many of the compared results would be flagged by measurement error alone, and how many people by their
/// courses. Empty for fewer than two.
QString expectedByChance(const std::vector<Row>& rows, const records::Judging& judging,
                         const base::Phrasebook& phrases);

} // namespace changes
