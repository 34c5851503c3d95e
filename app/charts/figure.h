#pragma once

#include "app/charts/trend_points.h"
#include "core/letters/composition.h"

namespace charts
{

/// The chart as it stands in a letter: black on white, as wide as the text, drawn as vectors.
letters::Figure figure(const TrendPoints& points, const base::Phrasebook& phrases);

} // namespace charts
