#pragma once

#include "core/base/result.h"
#include "core/storage/store.h"

namespace storage
{

/// Writes all of the records, as they are at this moment, into one new file that only its owner may read:
/// whole, opened again and checked, or not at all. Sealed records stay sealed, their keys beside the file.
/// Works while the records are written to, and from those opened to read. Refused where there is a file of
/// that name; Unreadable where the records do not come through sound.
base::Result<void> backUp(Store& store, const QString& path, const records::Progress& progress = {});

} // namespace storage
