#pragma once

#include "core/base/result.h"
#include "core/records/conditions.h"
#include "core/storage/store.h"

#include <vector>

namespace storage
{

/// The key of a set of conditions, which is stored where it was not; nothing for the empty set.
base::Result<std::optional<qint64>> keyOfSet(const Store& store, const records::Conditions& conditions);

/// The sets a visit and its findings refer to.
base::Result<std::vector<qint64>> setsOfVisit(const Store& store, qint64 visit);

/// Removes those of the sets that nothing refers to any more: what was typed on the way to a word.
base::Result<void> dropUnused(const Store& store, const std::vector<qint64>& sets);

} // namespace storage
