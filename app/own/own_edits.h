#pragma once

#include "core/catalogue/own.h"

namespace own
{

// The clinic's own part of the catalogue with one entry more, changed or gone. An entry is known by its id.

catalogue::Own with(catalogue::Own own, const catalogue::Form& form);
catalogue::Own with(catalogue::Own own, const catalogue::Measure& measure);
catalogue::Own with(catalogue::Own own, const catalogue::Pattern& pattern);
/// A source of the clinic's own that no threshold and no pattern names any more goes.
catalogue::Own with(catalogue::Own own, const catalogue::Threshold& row, const catalogue::Source& source,
                    const catalogue::Catalogue& all);
catalogue::Own withoutForm(catalogue::Own own, const QString& id);
/// The one that comes with the program stands in its place again.
catalogue::Own withoutPattern(catalogue::Own own, const QString& id);
catalogue::Own withoutThreshold(catalogue::Own own, const QString& id);

} // namespace own
