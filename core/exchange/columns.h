#pragma once

#include "core/base/csv.h"
#include "core/catalogue/catalogue.h"

#include <QHash>

namespace exchange
{

/// The columns every findings file has.
const QStringList& findingColumns();

/// The columns that hold conditions: those of every file, then one for each further condition of the
/// catalogue, which a file may have or not.
QStringList conditionColumns(const catalogue::Catalogue& catalogue);

/// "Line 14, column value: …" with what is allowed as a sentence.
base::Error wrongAt(int line, const QString& column, const QString& allowed);

/// Column name to its place. Every column must be there once, the further conditions at most once, no other.
base::Result<QHash<QString, qsizetype>> headerFrom(const base::CsvRow& row,
                                                   const catalogue::Catalogue& catalogue);

} // namespace exchange
