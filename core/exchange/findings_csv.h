#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"
#include "core/exchange/faults.h"
#include "core/records/opening.h"

#include <QByteArray>

namespace exchange
{

/// A findings file is no larger.
inline constexpr qint64 largestFindingsFile = 100'000'000;

/// What a findings file says, and every line of it that cannot be taken. A visit with such a line, and a
/// patient where the line's day cannot be read, is left out.
struct FindingsFile {
    std::vector<ImportedPatient> patients;
    Faults faults;
};

/// Reads a findings file. Columns, in any order, all of them: patient, family, given, born, sex, population,
/// date, measure, side, trial, value, unit, state, reason, aid, orthosis, footwear, assistance, start,
/// distance_m, medication; and, where a file has it, any further condition of the catalogue by its id
/// (surface, foam_cm), and `capped` (yes, no). Each fault names line, column and what is allowed; the error
/// is that the file is no table of these columns, or was stopped.
base::Result<FindingsFile> findingsFrom(const QByteArray& bytes, const catalogue::Catalogue& catalogue,
                                        QDate today, const records::Progress& progress = {});

/// The same whole or not at all.
base::Result<std::vector<ImportedPatient>>
patientsFromCsv(const QByteArray& bytes, const catalogue::Catalogue& catalogue, QDate today);

} // namespace exchange
