#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"

namespace catalogue
{

/// The catalogue in a folder laid out like resources/catalogue, whole or not at all. The error names file, id and
/// field. The catalogue that comes with the program is at ":/catalogue".
base::Result<Catalogue> readCatalogue(const QString& folder);

} // namespace catalogue
