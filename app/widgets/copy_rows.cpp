#include "app/widgets/copy_rows.h"

#include <QApplication>
#include <QClipboard>
#include <QHeaderView>
#include <QKeyEvent>
#include <QTableView>

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

CopyRows::CopyRows(QTableView& table) : QObject(&table), m_table(table)
{
    table.installEventFilter(this);
}

QString CopyRows::text() const
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

bool CopyRows::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() != QEvent::KeyPress || !static_cast<QKeyEvent*>(event)->matches(QKeySequence::Copy))
        return QObject::eventFilter(watched, event);
    QApplication::clipboard()->setText(text());
    return true;
}

} // namespace widgets
