#include "app/caseload/case_files.h"

#include "core/base/csv.h"

namespace caseload
{

namespace
{

QStringList cellsOf(const CaseTable& cases, int row)
{
    QStringList cells;
    for (int column = 0; column < CaseTable::ColumnCount; ++column)
        cells += row < 0 ? cases.headerData(column, Qt::Horizontal).toString()
                         : cases.text(cases.entry(row), column);
    return cells;
}

} // namespace

QByteArray csvOf(const CaseTable& cases)
{
    QByteArray file;
    for (int row = -1; row < cases.rowCount(); ++row)
        file += base::spreadsheetLine(cellsOf(cases, row));
    return file;
}

} // namespace caseload
