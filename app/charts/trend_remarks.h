#pragma once

#include "app/charts/trend_points.h"

namespace charts
{

/// What the limits, the shading and the trend of each side are, with their source.
QStringList remarksOn(const TrendPoints& points, const base::Phrasebook& phrases);

} // namespace charts
