#pragma once

#include "core/catalogue/catalogue.h"

#include <QStringList>

namespace catalogue
{

/// Every fault of the catalogue as one sentence that names the id; empty when it may be used. `everKnownIds`
/// are the measure ids ever released (ids.txt): each must still answer.
QStringList audit(const Catalogue& catalogue, const QStringList& everKnownIds);

} // namespace catalogue
