#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"

namespace catalogue
{

/// The catalogue in a folder laid out like resources/catalogue, whole or not at all. The error names file, id
/// and field. The catalogue that comes with the program is at ":/catalogue".
base::Result<Catalogue> readCatalogue(const QString& folder);

/// The measure ids ever released (ids.txt of the same folder), for the audit.
base::Result<QStringList> releasedIds(const QString& folder);

} // namespace catalogue
