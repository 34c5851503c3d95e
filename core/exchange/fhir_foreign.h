#pragma once

#include "core/exchange/fhir_entries.h"
#include "core/exchange/findings_file.h"

namespace exchange::fhir
{

/// What is understood of a Bundle that another program wrote, as bundleFrom says.
FindingsFile foreignFrom(const Bundle& bundle, const catalogue::Catalogue& catalogue, QDate today);

} // namespace exchange::fhir
