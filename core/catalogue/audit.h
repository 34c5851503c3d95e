#pragma once

#include "core/base/message.h"
#include "core/catalogue/catalogue.h"

#include <QStringList>

namespace catalogue
{

/// Every fault of the catalogue as one sentence that names the id; empty when it may be used. `everKnownIds`
/// are the measure ids ever released (ids.txt): each must still answer.
base::Messages audit(const Catalogue& catalogue, const QStringList& everKnownIds);

} // namespace catalogue
