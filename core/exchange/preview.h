#pragma once

#include "core/catalogue/own.h"
#include "core/exchange/findings_file.h"
#include "core/exchange/merge.h"
#include "core/exchange/whole_merge.h"

namespace exchange
{

/// What an import would make of one visit that was read, and of its patient where it is the first of theirs
/// in the file.
struct VisitPreview {
    int line = 0;    ///< where it begins
    QString patient; ///< record number
    QDate day;
    Becomes becomes = Becomes::AsRecorded;
    bool isPatientNew = false;
    bool isPatientChanged = false; ///< known, and the file knows more of who it is
    qsizetype newFindings = 0;     ///< of a visit that is new
    std::vector<FurtherFindings> further;

    bool operator==(const VisitPreview&) const = default;
};

/// What an import would do to the records.
struct Preview {
    std::vector<VisitPreview> visits; ///< patient by patient, without those that are refused
    Faults faults;
    std::vector<LeftOut> leftOut = {};
    qsizetype newPatients = 0;
    qsizetype newVisits = 0;
    qsizetype changedVisits = 0; ///< by an amendment or as a draft
    bool changesPatients = false;
    bool isOfWholeRecords = false; ///< which cannot be taken back

    bool isNothingNew() const { return newVisits == 0 && changedVisits == 0 && !changesPatients; }
    bool operator==(const Preview&) const = default;
};

/// A file read against the records: what an import writes, and the same told before it does.
struct Plan {
    std::vector<Addition> additions; ///< of each patient of the file
    std::vector<WholeAddition> records = {};
    std::optional<catalogue::Own> own = {}; ///< in the place of the clinic's own part; empty: it stays
    Preview preview;
};

/// Adds what is new of one more patient. `stored` and `versions` as for addition().
void add(Plan& plan, const ImportedPatient& imported, const std::optional<records::Patient>& stored,
         const std::vector<records::Visit>& versions, const catalogue::Catalogue& catalogue, QDate today);

/// The same of a whole record. `stored` is what the records hold of the same patient; `isNumberTaken`,
/// whether another patient has the record number.
void add(Plan& plan, const ReadRecord& read, const std::optional<records::WholeRecord>& stored,
         bool isNumberTaken);

} // namespace exchange
