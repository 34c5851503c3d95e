#pragma once

#include "core/catalogue/catalogue.h"

namespace bench
{

/// Judges every measure of many invented patients with 20 visits of 40 measures each, in one pass over the
/// database, and prints the time beside that of the sqlite3 shell reading the same rows, and the peak memory.
/// False where something went wrong.
bool judgeEveryone(const QString& folder, const catalogue::Catalogue& catalogue, int patients,
                   bool areSealed);

} // namespace bench
