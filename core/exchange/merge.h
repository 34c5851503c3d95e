#pragma once

#include "core/exchange/findings_csv.h"

namespace exchange
{

/// Findings for a visit that is already in the records.
struct FurtherFindings {
    records::VisitId visit;
    bool isDraft = false; ///< written into the draft; otherwise an amendment is needed
    std::vector<records::Finding> findings;
};

/// What an import adds to the records of one patient.
struct Addition {
    records::Patient patient;
    bool isPatientChanged = false;         ///< new, or the file knows what the records do not
    std::vector<records::Visit> newVisits; ///< without ids and author
    std::vector<FurtherFindings> further;

    bool isNothing() const { return !isPatientChanged && newVisits.empty() && further.empty(); }
};

/// What is new in the file for one patient. `stored` is the patient with the same record number, `versions`
/// are all their visits. A row that says what the records say adds nothing; one that says otherwise is the
/// error, which names line and column.
base::Result<Addition> addition(const ImportedPatient& imported,
                                const std::optional<records::Patient>& stored,
                                const std::vector<records::Visit>& versions,
                                const catalogue::Catalogue& catalogue);

} // namespace exchange
