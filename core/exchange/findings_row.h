#pragma once

#include "core/catalogue/catalogue.h"
#include "core/exchange/columns.h"
#include "core/records/visit.h"

namespace exchange
{

/// One row of a findings file, each cell allowed by itself.
struct FindingRow {
    int line = 0;
    records::Patient patient; ///< what the identity columns say
    QDate day;
    int trial = 1;
    records::Finding finding;       ///< of this trial alone; a reason beside a value is its note
    bool saysCapped = false;        ///< whether its cap was reached stands in the row
    records::Conditions conditions; ///< the condition columns that are not empty
};

/// Year, month and day as 2024-03-01 and nothing else.
std::optional<QDate> isoDay(const QString& text);

/// Whether a hold ended because the measure's cap was reached, where nothing says so.
bool isCapHeld(double number, const catalogue::Measure& measure);

base::Result<FindingRow> findingRow(const base::CsvRow& row, const QHash<QString, qsizetype>& header,
                                    const catalogue::Catalogue& catalogue);

} // namespace exchange
