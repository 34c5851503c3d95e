#pragma once

#include "app/own/own_list.h"
#include "core/catalogue/own.h"

namespace own
{

// The entries as lines of their lists.

std::vector<ListRow> formRows(const catalogue::Catalogue& catalogue);
std::vector<ListRow> measureRows(const catalogue::Own& own, const catalogue::Catalogue& catalogue);
std::vector<ListRow> thresholdRows(const catalogue::Own& own, const catalogue::Catalogue& catalogue);
std::vector<ListRow> patternRows(const catalogue::Catalogue& catalogue);

/// "4.5 s", "20 % of the reference", "improvement 4 points, decline 6 points".
QString sizeWords(const catalogue::Threshold& row, const catalogue::Catalogue& catalogue);

} // namespace own
