#include "app/caseload/case_files.h"

#include "core/base/csv.h"

#include <QTextDocument>

using namespace Qt::StringLiterals;

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

void print(const CaseTable& cases, const QString& title, QPagedPaintDevice& device)
{
    QString rows;
    for (int row = -1; row < cases.rowCount(); ++row) {
        QString cells;
        for (const QString& cell : cellsOf(cases, row))
            cells += (row < 0 ? u"<th align=left>%1</th>"_s : u"<td>%1</td>"_s).arg(cell.toHtmlEscaped());
        rows += u"<tr>"_s + cells + u"</tr>"_s;
    }
    QTextDocument document;
    document.setDefaultStyleSheet(u"td, th { padding: 3px 8px 3px 0; font-size: 8pt; }"_s);
    document.setHtml(u"<h3>%1</h3><table width=100%>%2</table>"_s.arg(title.toHtmlEscaped(), rows));
    document.print(&device);
}

} // namespace caseload
