#pragma once

#include "core/exchange/findings_file.h"
#include "core/fhir/entries.h"

namespace fhir
{

/// What is understood of a Bundle that another program wrote, as bundleFrom says.
exchange::FindingsFile foreignFrom(const std::vector<Entry>& entries, const catalogue::Catalogue& catalogue,
                                   QDate today);

} // namespace fhir
