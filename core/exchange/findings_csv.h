#pragma once

#include "core/base/result.h"
#include "core/catalogue/own.h"
#include "core/exchange/faults.h"
#include "core/exchange/whole_reading.h"
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
    std::vector<ReadRecord> records = {};   ///< of a file of whole records, which has no patients
    std::optional<catalogue::Own> own = {}; ///< what such a file makes of the clinic's own part
};

/// The clinic's own part of the catalogue, and the catalogue without it; of neither: there is no own part.
struct OwnPart {
    const catalogue::Catalogue* released = nullptr;
    const catalogue::Own* own = nullptr;
};

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
