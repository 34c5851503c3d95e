#pragma once

#include "core/base/message.h"
#include "core/catalogue/catalogue.h"

#include <QStringList>

namespace catalogue
{

/// What is wrong with reference values: an unknown measure or population, people or source not named, a
/// deviation that is not positive, a number outside the measure's scale, rows of one table whose ages overlap
/// or leave a gap that no note calls a gap, and bands of one series that overlap.
base::Messages normFaults(const Catalogue& catalogue);

} // namespace catalogue
