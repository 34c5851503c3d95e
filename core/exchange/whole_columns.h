#pragma once

#include "core/base/csv.h"
#include "core/base/result.h"
#include "core/catalogue/catalogue.h"

#include <QHash>

namespace exchange
{

// A file of whole records: every row says in `row` what it is, has a number of its own in `no` where others
// belong to it, and names in `of` what it belongs to itself. DEVELOPERS.md lists the rows and their cells.

inline const QString rowColumn = QStringLiteral("row");

/// The columns of a file of whole records, the conditions of the catalogue last.
QStringList wholeColumns(const catalogue::Catalogue& catalogue);

/// Whether the header is that of such a file.
bool isOfWholeRecords(const base::CsvRow& header);

/// Column name to its place: the columns above in any order, each at most once; without those of a condition.
base::Result<QHash<QString, qsizetype>> wholeHeaderFrom(const base::CsvRow& row,
                                                        const catalogue::Catalogue& catalogue);

/// As many digits as make the same number when it is read.
QString numeral(double number);

/// A text behind an apostrophe where a spreadsheet would take it for a formula, or where it begins with one;
/// and back, to the letter.
QString guarded(const QString& text);
QString unguarded(const QString& cell);

} // namespace exchange
