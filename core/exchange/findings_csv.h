#pragma once

#include "core/exchange/findings_file.h"

namespace exchange
{

/// Reads a findings file. Columns, in any order, all of them: patient, family, given, born, sex, population,
/// date, measure, side, trial, value, unit, state, reason, aid, orthosis, footwear, assistance, start,
/// distance_m, medication; and, where a file has it, any further condition of the catalogue by its id
/// (surface, foam_cm), and `capped` (yes, no). A file with a column `row` is one of whole records, as
/// WholeWriting writes it. Each fault names line, column and what is allowed; the error is that the file is
/// no table of these columns, that it holds another entry of the clinic's own part than the clinic, or that
/// it was stopped.
base::Result<FindingsFile> findingsFrom(const QByteArray& bytes, const catalogue::Catalogue& catalogue,
                                        QDate today, const records::Progress& progress = {},
                                        const OwnPart& ownPart = {});

/// The same whole or not at all.
base::Result<std::vector<ImportedPatient>>
patientsFromCsv(const QByteArray& bytes, const catalogue::Catalogue& catalogue, QDate today);

} // namespace exchange
