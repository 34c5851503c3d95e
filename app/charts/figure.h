#pragma once

#include "app/charts/trend_points.h"
#include "core/letters/composition.h"

namespace charts
{

/// A chart a letter names, "measure" or "measure/side", from the letter's record and reference; empty where
/// there is nothing to draw.
std::optional<letters::Figure> figureOf(const QString& chart, const letters::Material& material,
                                        const catalogue::Catalogue& catalogue,
                                        const base::Phrasebook& phrases);

/// The chart as it stands in a letter: black on white, as wide as the text, drawn as vectors.
letters::Figure figure(const TrendPoints& points, const base::Phrasebook& phrases);

} // namespace charts
