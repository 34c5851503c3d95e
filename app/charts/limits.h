#pragma once

#include "app/charts/trend_points.h"

namespace charts
{

/// The limits of error around a reference by the threshold used there. A limit may depend on the later value
/// itself (a share of the mean of both); one beyond the end of the measure's scale is left out.
TrendLimits limitsAround(const records::Occasion& reference, const interpretation::Applied& used,
                         const catalogue::Measure& measure, const catalogue::Catalogue& catalogue,
                         const base::Phrasebook& phrases);

} // namespace charts
