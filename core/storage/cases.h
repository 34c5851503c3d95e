#pragma once

#include "core/base/result.h"
#include "core/judging/case_summary.h"
#include "core/records/patient.h"
#include "core/records/visit.h"
#include "core/storage/statements.h"
#include "core/storage/store.h"

namespace storage
{

/// What was worked out of one patient, from the record as it was after so many changes.
struct WorkedOut {
    records::PatientId patient;
    qint64 changes = 0;
    judging::CaseSummary summary;
};

/// The record of a patient in one state, and how many changes it has seen.
struct CaseRecord {
    qint64 changes = 0;
    records::Patient patient;
    std::vector<records::Visit> visits; ///< the versions that count, oldest first
    std::vector<records::Happening> happenings;
};

/// The list of all patients, with summaries that are kept between starts. The database itself empties a
/// summary when anything changes in the record of its patient; one of another stamp is none.
class Cases
{
public:
    explicit Cases(Store& store) : m_store(store) {}

    /// What summaries are worked out with: the release and the clinic's own part of the catalogue, and how
    /// the clinic judges.
    base::Result<QString> stamp(const QString& release) const;
    base::Result<std::vector<judging::Case>> all(const QString& stamp) const;
    base::Result<std::optional<judging::Case>> one(const records::PatientId& patient,
                                                   const QString& stamp) const;
    base::Result<CaseRecord> record(const records::PatientId& patient) const;
    base::Result<WorkedOut> workOut(const records::PatientId& patient, const catalogue::Catalogue& catalogue,
                                    const records::Judging& judging) const;
    /// Keeps what is still true; what was worked out from an older record is let go.
    base::Result<void> keep(const std::vector<WorkedOut>& all, const QString& stamp);

private:
    base::Result<std::vector<judging::Case>>
    where(const QString& condition, const std::vector<Binding>& bindings, const QString& stamp) const;

    Store& m_store;
};

} // namespace storage
