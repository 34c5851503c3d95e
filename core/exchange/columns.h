#pragma once

#include "core/base/csv.h"

#include <QHash>

namespace exchange
{

/// The columns of a findings file.
const QStringList& findingColumns();

/// The columns that hold conditions.
const QStringList& conditionColumns();

/// "Line 14, column value: …" with what is allowed as a sentence.
base::Error wrongAt(int line, const QString& column, const QString& allowed);

/// Column name to its place. Every column must be there once and no other.
base::Result<QHash<QString, qsizetype>> headerFrom(const base::CsvRow& row);

} // namespace exchange
