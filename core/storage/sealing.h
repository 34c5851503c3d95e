#pragma once

#include "core/base/result.h"
#include "core/records/opening.h"

struct sqlite3;

namespace storage
{

/// Whether this program was built with the SQLite that can seal records. One that was does not even start
/// with another in its place, which would take a key in silence and write in clear.
bool canSeal();

/// Gives a connection that has read nothing yet the key of its file. A wrong one shows at the first reading.
base::Result<void> applyKey(sqlite3* database, const sealing::Key& key);

/// Copies plain records that are at rest into an empty file, sealed. Refused where `progress` stops it.
base::Result<void> copySealed(const QString& plain, const QString& sealed, const sealing::Key& key,
                              const records::Progress& progress);

} // namespace storage
