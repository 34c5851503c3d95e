#pragma once

#include "core/base/message.h"
#include "core/catalogue/catalogue.h"

#include <QStringList>

namespace catalogue
{

/// What is wrong with rows that hold for a band of a reference level: an end outside the measure it is a band
/// of, two bands of one series that overlap, and a gap between two that neither row's note calls a gap. Bands
/// of whole steps (0 to 24, 25 to 34) touch.
base::Messages bandFaults(const Catalogue& catalogue);

} // namespace catalogue
