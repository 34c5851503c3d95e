#pragma once

#include "core/records/red_flags.h"
#include "core/records/visit.h"
#include "core/storage/store.h"

namespace storage
{

/// Writes a visit's answers in place of those it had; `visit` is its key.
base::Result<void> putRedFlags(const Store& store, qint64 visit, const records::RedFlags& flags);

/// Gives visits their answers; `keys` are theirs, in the same order. The condition is that by which they were
/// read.
base::Result<void> addRedFlags(const Store& store, const QString& condition, const QString& key,
                               const std::vector<qint64>& keys, std::vector<records::Visit>& visits);

} // namespace storage
