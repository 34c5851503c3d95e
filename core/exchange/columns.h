#pragma once

#include "core/base/csv.h"
#include "core/catalogue/catalogue.h"
#include "core/exchange/imported.h"

#include <QDate>
#include <QHash>

#include <optional>

namespace exchange
{

/// The columns every findings file has.
const QStringList& findingColumns();

/// The columns that hold conditions: those of every file, then one for each further condition of the
/// catalogue, which a file may have or not.
QStringList conditionColumns(const catalogue::Catalogue& catalogue);

/// "Line 14, column value: …" with what is allowed as a sentence.
base::Error wrongAt(int line, const QString& column, const base::Message& allowed);

/// Several errors as one, a line each: the first of them, and how many more there are. Not empty.
base::Error oneOf(const std::vector<base::Error>& errors, size_t most = 20);

/// A day written as 2024-03-01 and nothing else.
std::optional<QDate> isoDay(const QString& text);

/// The column that says whether a trial was stopped at the measure's cap; a file may have it or not.
inline const QString cappedColumn = QStringLiteral("capped");

/// Column name to its place. Every column must be there once, the further conditions and `capped` at most
/// once, no other.
base::Result<QHash<QString, qsizetype>> headerFrom(const base::CsvRow& row,
                                                   const catalogue::Catalogue& catalogue);

} // namespace exchange
