#pragma once

#include "core/catalogue/own.h"

namespace own
{

// The clinic's own part of the catalogue with one entry more, changed or gone. An entry is known by its id.

catalogue::Own with(catalogue::Own own, const catalogue::Form& form);
catalogue::Own with(catalogue::Own own, const catalogue::Measure& measure);
/// A source of the clinic's own that no threshold names any more goes.
catalogue::Own with(catalogue::Own own, const catalogue::Threshold& row, const catalogue::Source& source,
                    const catalogue::Catalogue& all);
catalogue::Own withoutForm(catalogue::Own own, const QString& id);
catalogue::Own withoutThreshold(catalogue::Own own, const QString& id);

} // namespace own
