#pragma once

#include "app/console/request.h"
#include "core/base/phrasebook.h"

#include <QJsonArray>

namespace console
{

/// The latest change of each measure and side against the previous and the baseline visit, one object each; a
/// first result has none. What is not there is null. Thresholds are absolute, in the measure's unit, at 95 %,
/// on the side the difference lies on. `visit` and `againstVisit` say whether the visits are drafts.
QJsonArray changeJson(const Found& found, const catalogue::Catalogue& catalogue,
                      const base::Phrasebook& phrases);

} // namespace console
