#pragma once

#include "core/base/csv.h"
#include "core/base/result.h"
#include "core/catalogue/own.h"
#include "core/exchange/faults.h"
#include "core/exchange/whole_reading.h"
#include "core/records/progress.h"

#include <QByteArray>

namespace exchange
{

/// A findings file is no larger, and a Bundle no larger than this.
inline constexpr qint64 largestFindingsFile = 100'000'000;
inline constexpr qint64 largestBundle = 400'000'000;

/// Resources of a Bundle that are not taken, though nothing is wrong with them.
struct LeftOut {
    QString type; ///< "Observation"
    QString code; ///< the first of its codes; empty where it has none
    base::Message why = {};
    int count = 0;

    bool operator==(const LeftOut&) const = default;
};

/// What a findings file says, and every line of it that cannot be taken. A visit with such a line, and a
/// patient where the line's day cannot be read, is left out.
struct FindingsFile {
    std::vector<ImportedPatient> patients;
    Faults faults;
    std::vector<ReadRecord> records = {};   ///< of a file of whole records, which has no patients
    std::optional<catalogue::Own> own = {}; ///< what such a file makes of the clinic's own part
    std::vector<LeftOut> leftOut = {};      ///< of a Bundle
};

/// The clinic's own part of the catalogue, and the catalogue without it; of neither: there is no own part.
struct OwnPart {
    const catalogue::Catalogue* released = nullptr;
    const catalogue::Own* own = nullptr;
};

/// Whole records out of rows that begin with their header; `faults` are those that the rows had before.
base::Result<FindingsFile> wholeFileFrom(const std::vector<base::CsvRow>& rows,
                                         const catalogue::Catalogue& catalogue, QDate today,
                                         const records::Progress& progress, const OwnPart& ownPart,
                                         Faults faults = Faults());

} // namespace exchange
