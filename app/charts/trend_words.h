#pragma once

#include "app/charts/trend_points.h"

namespace charts
{

/// "12.40 s on 03-Nov-2026, before 14.10 s on 04-May-2026; improved beyond error against the reference".
QString latestWords(const TrendLine& line, const base::Phrasebook& phrases);

/// The whole trend for someone who cannot see it: latest and previous value of each side with verdict, and
/// what the shading and the limits are.
QString spoken(const TrendPoints& points, const base::Phrasebook& phrases);

} // namespace charts
