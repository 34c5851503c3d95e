#pragma once

#include "core/judging/change.h"

#include <QStringList>

namespace trends
{

/// The measures a trend opens with, at most `most`: turns between able and unable, then the numbers that
/// moved most in units of their limit, then the other numbers.
QStringList firstChoice(const std::vector<judging::Change>& changes, const catalogue::Catalogue& catalogue,
                        qsizetype most);

} // namespace trends
