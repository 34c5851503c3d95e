#pragma once

#include "core/records/progress.h"
#include "core/records/visit.h"
#include "core/storage/store.h"

#include <functional>

namespace storage
{

/// A patient with every version of every visit; an error ends the pass.
using TakeRecord =
    std::function<base::Result<void>(const records::Patient& patient, std::vector<records::Visit> versions)>;

/// One pass over all patients who have visits, one at a time in memory, in one state of the records. Refused
/// where `progress` stops it.
base::Result<void> eachPatient(Store& store, const TakeRecord& take, const records::Progress& progress = {});

} // namespace storage
