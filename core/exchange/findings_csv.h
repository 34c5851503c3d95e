#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"
#include "core/exchange/imported.h"

#include <QByteArray>

namespace exchange
{

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
