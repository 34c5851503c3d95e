#pragma once

#include "core/records/visit.h"
#include "core/storage/store.h"

#include <functional>

namespace storage
{

/// A patient with every version of every visit.
using TakeRecord = std::function<void(const records::Patient& patient, std::vector<records::Visit> versions)>;

/// One pass over all patients who have visits, one at a time in memory, in one state of the records.
base::Result<void> eachPatient(Store& store, const TakeRecord& take);

} // namespace storage
