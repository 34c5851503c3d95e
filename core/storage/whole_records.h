#pragma once

#include "core/records/progress.h"
#include "core/records/whole_record.h"
#include "core/storage/store.h"

#include <functional>

namespace storage
{

/// Everything of one patient; empty where there is none.
base::Result<std::optional<records::WholeRecord>> wholeRecord(Store& store, const records::PatientId& id);

/// Hands over the whole records of patients, all of them where none are named, one at a time and in one state
/// of the records, by family and given name. Refused where `progress` stops it.
base::Result<void> eachWholeRecord(Store& store,
                                   const std::optional<std::vector<records::PatientId>>& patients,
                                   const std::function<base::Result<void>(records::WholeRecord)>& take,
                                   const records::Progress& progress = {});

/// Writes what is new in a record as it is elsewhere: with its ids, who signed or entered what, and when;
/// notes that it was imported. The patient's own fields are written where `isPatientNew`; `withdrawn` are the
/// series that count no more.
base::Result<void>
bringRecord(Store& store, const records::WholeRecord& added, bool isPatientNew,
            const std::vector<std::pair<records::VisitId, records::Withdrawal>>& withdrawn);

} // namespace storage
