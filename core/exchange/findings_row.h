#pragma once

#include "core/base/csv.h"
#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <QHash>

namespace exchange
{

/// One row of a findings file, each cell allowed by itself.
struct FindingRow {
    int line = 0;
    records::Patient patient; ///< what the identity columns say
    QDate day;
    int trial = 1;
    records::Finding finding;       ///< of this trial alone; a reason beside a value is its note
    records::Conditions conditions; ///< the condition columns that are not empty
};

/// The columns of a findings file.
const QStringList& findingColumns();

/// The columns that hold conditions.
const QStringList& conditionColumns();

/// Whether a hold ended because the measure's cap was reached.
bool isCapHeld(double number, const catalogue::Measure& measure);

/// "Line 14, column value: …" with what is allowed as a sentence.
base::Error wrongAt(int line, const QString& column, const QString& allowed);

/// Column name to its place. Every column must be there once and no other.
base::Result<QHash<QString, qsizetype>> headerFrom(const base::CsvRow& row);

base::Result<FindingRow> findingRow(const base::CsvRow& row, const QHash<QString, qsizetype>& header,
                                    const catalogue::Catalogue& catalogue);

} // namespace exchange
