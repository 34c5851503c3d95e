#pragma once

#include "app/charts/trend_points.h"

#include "core/letters/composition.h"

namespace charts
{

/// The chart as a figure across the page of a letter, on white, in vectors. Empty where the measure was never
/// recorded.
std::optional<letters::Figure> letterFigure(const TrendQuestion& question,
                                            const std::vector<records::Visit>& visits,
                                            const records::Patient& patient,
                                            const catalogue::Catalogue& catalogue,
                                            const base::Phrasebook& phrases);

} // namespace charts
