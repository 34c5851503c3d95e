#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <QByteArray>

namespace exchange
{

/// One patient of a findings file with the visits it holds. Visits are drafts without author; ids are empty.
struct ImportedPatient {
    records::Patient patient;
    std::vector<records::Visit> visits; ///< oldest first
};

/// Reads a findings file whole or not at all. Columns: patient, family, given, born, sex, population, date, measure,
/// side, trial, value, unit, state, reason, aid, orthosis, footwear, assistance, start, distance_m, medication. The
/// error is one sentence that names line, column and what is allowed.
base::Result<std::vector<ImportedPatient>> patientsFromCsv(const QByteArray& bytes,
                                                           const catalogue::Catalogue& catalogue, QDate today);

} // namespace exchange
