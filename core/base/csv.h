#pragma once

#include "core/base/result.h"

#include <QByteArray>
#include <QStringList>

#include <vector>

namespace base
{

struct CsvRow {
    int line = 0; ///< the line of the file on which the row begins, from 1
    QStringList cells;
};

/// The rows of a comma-separated file in UTF-8 (RFC 4180; a byte-order mark is passed over, blank lines too).
/// Spaces belong to their cell. Refuses bytes that are not UTF-8, a zero byte, and a quotation that is never
/// closed.
Result<std::vector<CsvRow>> csvRows(const QByteArray& bytes);

/// A text that a spreadsheet would take for a formula stands behind an apostrophe; a number stays.
QString harmless(const QString& text);

/// One row as it is written to a file, quoted where it must be, with its line end.
QByteArray csvLine(const QStringList& cells);

/// The same for a file that people open in a spreadsheet, its texts harmless. A file that is read back value
/// for value is written with csvLine.
QByteArray spreadsheetLine(QStringList cells);

} // namespace base
