#pragma once

#include "app/session/session.h"
#include "core/exchange/findings_csv.h"

namespace session
{

/// What an import has added to the records.
struct ImportSummary {
    int patients = 0;   ///< new
    int visits = 0;     ///< new
    int amendments = 0; ///< of visits that were signed
    int findings = 0;   ///< new, or with further trials

    bool operator==(const ImportSummary&) const = default;
};

/// Brings the patients of a findings file into the records, all of them or none. Patients are known by their
/// record number; what the records hold already is no change, what they hold otherwise is the error. New
/// visits are signed by the author; findings for a day that is signed become a signed amendment, for an open
/// draft a part of it. Done before a patient is in focus: the session's own lists are not read again.
base::Result<ImportSummary> importPatients(Session& session,
                                           const std::vector<exchange::ImportedPatient>& patients,
                                           const records::Author& author);

} // namespace session
