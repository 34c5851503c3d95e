#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"
#include "core/exchange/imported.h"

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

/// What is new in what was read of one patient. `stored` is the patient with the same record number,
/// `versions` are all their visits. What the records say already adds nothing; what they say otherwise is the
/// error, which names place and part.
base::Result<Addition> addition(const ImportedPatient& imported,
                                const std::optional<records::Patient>& stored,
                                const std::vector<records::Visit>& versions,
                                const catalogue::Catalogue& catalogue);

} // namespace exchange
