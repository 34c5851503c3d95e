#pragma once

#include "core/records/visit.h"
#include "core/storage/store.h"

namespace storage
{

/// The visits of which a condition on `visits` holds (with `:key` in it), with everything in them, oldest day
/// and version first; five queries, however many there are. Inside a transaction of the caller.
base::Result<std::vector<records::Visit>> visitsWhere(const Store& store, const QString& condition,
                                                      const QString& key);

} // namespace storage
