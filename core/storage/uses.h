#pragma once

#include "core/base/result.h"
#include "core/records/finding.h"
#include "core/records/summary.h"
#include "core/storage/store.h"

#include <vector>

namespace storage
{

/// The visits at which something was said about the measure, drafts too; newest day first.
base::Result<std::vector<records::Use>> uses(const Store& store, const QString& measure);

/// What was ever recorded of a measure, in every version of every visit.
base::Result<std::vector<records::Finding>> findingsOf(Store& store, const QString& measure);

} // namespace storage
