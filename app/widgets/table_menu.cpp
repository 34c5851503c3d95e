#include "app/widgets/table_menu.h"

#include "core/base/csv.h"
#include "core/base/text.h"

#include <QAction>
#include <QApplication>
#include <QClipboard>
#include <QContextMenuEvent>
#include <QHeaderView>
#include <QKeyEvent>
#include <QMimeData>
#include <QPrinter>
#include <QTableView>
#include <QTextDocument>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace widgets
{

namespace
{

/// What a title means where it is a drawing for the eye.
QString title(const QAbstractItemModel& model, int column)
{
    const QString spoken = model.headerData(column, Qt::Horizontal, Qt::AccessibleTextRole).toString();
    return spoken.isEmpty() ? model.headerData(column, Qt::Horizontal).toString() : spoken;
}

/// Of one line without the marks of direction, which would make two names of one.
QString forSpreadsheet(const QVariant& plain, const QString& shown)
{
    return base::harmless(
        base::withoutControls(plain.isValid() ? plain.toString() : shown, base::Breaks::Forbidden)
            .simplified());
}

/// The titles and the selected rows of the columns that are shown, as they are copied.
QList<QStringList> copied(const QTableView& table)
{
    const QAbstractItemModel& model = *table.model();
    const auto line = [&](auto cell) {
        QStringList cells;
        for (int column = 0; column < model.columnCount(); ++column) {
            if (!table.isColumnHidden(column))
                cells += cell(column);
        }
        return cells;
    };
    QList<QStringList> lines = {line([&](int column) {
        return forSpreadsheet(model.headerData(column, Qt::Horizontal, PlainRole), title(model, column));
    })};
    QModelIndexList rows = table.selectionModel()->selectedRows();
    std::sort(rows.begin(), rows.end());
    for (const QModelIndex& row : rows) {
        lines += line([&](int column) {
            const QModelIndex cell = row.siblingAtColumn(column);
            return forSpreadsheet(cell.data(PlainRole), cell.data().toString());
        });
    }
    return lines;
}

QString tableRow(const QString& tag, const QString& side, const QStringList& cells)
{
    QString row;
    for (const QString& cell : cells)
        row += u"<%1 align=\"%2\">%3</%1>"_s.arg(tag, side, cell.toHtmlEscaped());
    return u"<tr>"_s + row + u"</tr>"_s;
}

QString sideOf(const QTableView& table)
{
    return table.isRightToLeft() ? u"right"_s : u"left"_s;
}

} // namespace

TableMenu::TableMenu(QTableView& table, std::function<Sheet()> sheet)
    : QObject(&table), m_table(table), m_sheet(std::move(sheet))
{
    table.installEventFilter(this);
    table.setContextMenuPolicy(Qt::ActionsContextMenu);
    // The keys are those of the event filter, which hears them in this table alone.
    const auto add = [&](const QString& words, QKeySequence::StandardKey keys, auto act) {
        auto* action =
            new QAction(words + u'\t' + QKeySequence(keys).toString(QKeySequence::NativeText), &table);
        connect(action, &QAction::triggered, this, act);
        table.addAction(action);
        return action;
    };
    add(tr("&Copy rows"), QKeySequence::Copy, &TableMenu::copy)->setObjectName(u"copyRows"_s);
    if (m_sheet)
        add(tr("&Print table…"), QKeySequence::Print, &TableMenu::print)->setObjectName(u"printTable"_s);
}

QString TableMenu::text() const
{
    QString text;
    for (const QStringList& cells : copied(m_table))
        text += cells.join(u'\t') + u'\n';
    return text;
}

QString TableMenu::html() const
{
    QString rows;
    for (const QStringList& cells : copied(m_table))
        rows += tableRow(rows.isEmpty() ? u"th"_s : u"td"_s, sideOf(m_table), cells);
    return u"<table>%1</table>"_s.arg(rows);
}

QString TableMenu::onPaper() const
{
    const QAbstractItemModel& model = *m_table.model();
    QString rows;
    for (int row = -1; row < model.rowCount(); ++row) {
        QStringList cells;
        for (int column = 0; column < model.columnCount(); ++column) {
            if (!m_table.isColumnHidden(column))
                cells += row < 0 ? title(model, column) : model.index(row, column).data().toString();
        }
        if (row < 0 || !m_table.isRowHidden(row))
            rows += tableRow(row < 0 ? u"th"_s : u"td"_s, sideOf(m_table), cells);
    }
    return headHtml(m_sheet()) + u"<table width=\"100%\">%1</table>"_s.arg(rows);
}

void TableMenu::copy() const
{
    auto* both = new QMimeData;
    both->setText(text());
    both->setHtml(html());
    QApplication::clipboard()->setMimeData(both);
}

void TableMenu::print() const
{
    QTextDocument document;
    document.setDefaultStyleSheet(u"td, th { padding: 3px 8px 3px 0; font-size: 8pt; }"_s);
    document.setHtml(onPaper());
    QPrinter printer(QPrinter::HighResolution);
    printer.setPageOrientation(QPageLayout::Landscape);
    showOnPaper(
        printer, m_sheet().paper, [&document](QPrinter& paper) { document.print(&paper); }, m_table.window());
}

/// By key the menu opens below the current row, wherever the header leaves it.
bool TableMenu::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::ContextMenu) {
        const auto* asked = static_cast<QContextMenuEvent*>(event);
        const QModelIndex current = m_table.currentIndex();
        if (asked->reason() != QContextMenuEvent::Keyboard || !current.isValid())
            return QObject::eventFilter(watched, event);
        const QPoint below = m_table.visualRect(current).bottomLeft();
        QWidget* rows = m_table.viewport();
        QContextMenuEvent atRow(QContextMenuEvent::Other, below, rows->mapToGlobal(below));
        QApplication::sendEvent(rows, &atRow); // as a click there would be
        return true;
    }
    const bool isOverride = event->type() == QEvent::ShortcutOverride; // before a key of the page
    if (!isOverride && event->type() != QEvent::KeyPress)
        return QObject::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool copies = key->matches(QKeySequence::Copy);
    if (!copies && !(m_sheet && key->matches(QKeySequence::Print)))
        return QObject::eventFilter(watched, event);
    event->accept();
    if (isOverride)
        return true;
    if (copies)
        copy();
    else
        print();
    return true;
}

} // namespace widgets
