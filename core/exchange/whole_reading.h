#pragma once

#include "core/exchange/faults.h"
#include "core/exchange/whole_columns.h"
#include "core/records/progress.h"
#include "core/records/whole_record.h"

namespace exchange
{

/// The record of one patient as a file says it, and where.
struct ReadRecord {
    records::WholeRecord record;
    int line = 0;                   ///< of the patient
    QHash<QString, int> lines = {}; ///< of visits and events, by their ids
};

/// What the clinic that wrote the file added to the catalogue, as catalogue::ownFrom reads it; empty where it
/// added nothing. The error is that the file says it twice.
base::Result<QByteArray> ownDocumentIn(const std::vector<base::CsvRow>& rows);

/// Reads the rows of a file of whole records; each fault names line, column and what is allowed, and leaves
/// out its patient. The error is that the header is none of such a file, or that it was stopped.
base::Result<std::vector<ReadRecord>> recordsFrom(const std::vector<base::CsvRow>& rows,
                                                  const catalogue::Catalogue& catalogue, QDate today,
                                                  Faults& faults, const records::Progress& progress = {});

} // namespace exchange
