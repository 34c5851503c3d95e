#include "app/widgets/table_menu.h"

#include "app/widgets/on_paper.h"

#include <QAction>
#include <QApplication>
#include <QClipboard>
#include <QHeaderView>
#include <QKeyEvent>
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

} // namespace

TableMenu::TableMenu(QTableView& table, std::function<QString()> title)
    : QObject(&table), m_table(table), m_title(std::move(title))
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
    add(tr("&Print table…"), QKeySequence::Print, &TableMenu::print)->setObjectName(u"printTable"_s);
}

QString TableMenu::text() const
{
    const QAbstractItemModel& model = *m_table.model();
    const auto line = [&](auto words) {
        QStringList cells;
        for (int column = 0; column < model.columnCount(); ++column)
            cells << words(column).simplified();
        return cells.join(u'\t') + u'\n';
    };
    QString text = line([&](int column) { return title(model, column); });
    QModelIndexList rows = m_table.selectionModel()->selectedRows();
    std::sort(rows.begin(), rows.end());
    for (const QModelIndex& row : rows)
        text += line([&](int column) { return row.siblingAtColumn(column).data().toString(); });
    return text;
}

QString TableMenu::html() const
{
    const QAbstractItemModel& model = *m_table.model();
    const auto line = [&](const QString& tag, auto words) {
        QString cells;
        for (int column = 0; column < model.columnCount(); ++column) {
            if (!m_table.isColumnHidden(column))
                cells += u"<%1 align=\"%2\">%3</%1>"_s.arg(
                    tag, m_table.isRightToLeft() ? u"right"_s : u"left"_s, words(column).toHtmlEscaped());
        }
        return u"<tr>"_s + cells + u"</tr>"_s;
    };
    QString rows = line(u"th"_s, [&](int column) { return title(model, column); });
    for (int row = 0; row < model.rowCount(); ++row) {
        if (!m_table.isRowHidden(row))
            rows += line(u"td"_s, [&](int column) { return model.index(row, column).data().toString(); });
    }
    return u"<h3>%1</h3><table width=\"100%\">%2</table>"_s.arg(m_title().toHtmlEscaped(), rows);
}

void TableMenu::copy() const
{
    QApplication::clipboard()->setText(text());
}

void TableMenu::print() const
{
    QTextDocument document;
    document.setDefaultStyleSheet(u"td, th { padding: 3px 8px 3px 0; font-size: 8pt; }"_s);
    document.setHtml(html());
    QPrinter printer(QPrinter::HighResolution);
    printer.setPageOrientation(QPageLayout::Landscape);
    showOnPaper(
        printer, [&document](QPrinter& paper) { document.print(&paper); }, m_table.window());
}

bool TableMenu::eventFilter(QObject* watched, QEvent* event)
{
    const auto* key = event->type() == QEvent::KeyPress ? static_cast<QKeyEvent*>(event) : nullptr;
    if (key != nullptr && key->matches(QKeySequence::Copy))
        copy();
    else if (key != nullptr && key->matches(QKeySequence::Print))
        print();
    else
        return QObject::eventFilter(watched, event);
    return true;
}

} // namespace widgets
