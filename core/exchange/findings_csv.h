#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <QByteArray>

namespace exchange
{

/// Where a finding stands in a findings file: the lines of its trials, one after another from the first.
struct Origin {
    int firstTrial = 1;
    std::vector<int> lines;
    bool saysCapped = false; ///< whether the cap was reached stands in the file
};

/// One visit of a findings file, a draft without author and ids. A condition of the visit is the first its
/// rows name; a finding whose row says otherwise, or nothing, holds that as its own exception, as it holds
/// the conditions of its test alone.
struct ImportedVisit {
    records::Visit visit;
    std::vector<Origin> origins; ///< of each of the visit's findings
    QStringList conditions;      ///< of which the file has a column
};

/// One patient of a findings file, without id.
struct ImportedPatient {
    int line = 0; ///< of the first row
    records::Patient patient;
    std::vector<ImportedVisit> visits; ///< oldest first
};

/// A findings file is no larger.
inline constexpr qint64 largestFindingsFile = 100'000'000;

/// Reads a findings file whole or not at all. Columns, in any order, all of them: patient, family, given,
/// born, sex, population, date, measure, side, trial, value, unit, state, reason, aid, orthosis, footwear,
/// assistance, start, distance_m, medication; and, where a file has it, any further condition of the
/// catalogue by its id (surface, foam_cm), and `capped` (yes, no). The error is one sentence that names line,
/// column and what is allowed; of several errors up to twenty, a line each.
base::Result<std::vector<ImportedPatient>>
patientsFromCsv(const QByteArray& bytes, const catalogue::Catalogue& catalogue, QDate today);

} // namespace exchange
