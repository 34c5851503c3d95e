#pragma once

#include "core/catalogue/catalogue.h"
#include "core/exchange/faults.h"

namespace exchange
{

/// What becomes of a visit that was read: it is new, it adds to one that is in the records, the records hold
/// all of it already, it was entered in error and is not brought back, it cannot be taken, or (of what is no
/// visit) it is left out.
enum class Becomes { New, Changed, AsRecorded, InError, Refused, LeftOut };

/// Findings for a visit that is already in the records.
struct FurtherFindings {
    records::VisitId visit;
    bool isDraft = false; ///< written into the draft; otherwise an amendment is needed
    std::vector<records::Finding> findings;
    std::vector<std::optional<records::Finding>> before; ///< what the records hold of each
    QDate day;

    bool operator==(const FurtherFindings&) const = default;
};

/// What an import adds to the records of one patient.
struct Addition {
    records::Patient patient;
    bool isPatientChanged = false;         ///< new, or the file knows what the records do not
    std::vector<records::Visit> newVisits; ///< without ids and author
    std::vector<FurtherFindings> further;
    std::vector<Becomes> becomes; ///< of each visit that was read

    bool isNothing() const { return !isPatientChanged && newVisits.empty() && further.empty(); }
};

/// What is new in what was read of one patient. `stored` is the patient with the same record number,
/// `versions` are all their visits. What the records say already adds nothing; what they say otherwise, and
/// what would not be allowed in them, is a fault, which names place and part.
Addition addition(const ImportedPatient& imported, const std::optional<records::Patient>& stored,
                  const std::vector<records::Visit>& versions, const catalogue::Catalogue& catalogue,
                  QDate today, Faults& faults);

} // namespace exchange
