#pragma once

#include "app/charts/trend_points.h"

namespace charts
{

/// The reference range that is shaded for a result: a published range, else mean ± 2 SD, for the age and sex
/// of the patient that day; read before from memory. Cut to the measure's scale. Empty where there is none.
std::optional<TrendRange> referenceRange(const records::Occasion& occasion, const records::Patient& patient,
                                         const catalogue::Catalogue& catalogue,
                                         const base::Phrasebook& phrases);

} // namespace charts
