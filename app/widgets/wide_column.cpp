#include "app/widgets/wide_column.h"

#include <QEvent>
#include <QHeaderView>
#include <QTableView>

#include <algorithm>

namespace widgets
{

WideColumn::WideColumn(QTableView& table, int column, int least)
    : QObject(&table), m_table(table), m_column(column), m_least(least)
{
    QHeaderView* header = table.horizontalHeader();
    header->setSectionResizeMode(column, QHeaderView::Fixed);
    connect(header, &QHeaderView::sectionResized, this, [this](int resized) {
        if (resized != m_column)
            fit();
    });
    table.viewport()->installEventFilter(this);
}

bool WideColumn::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::Resize)
        fit();
    return QObject::eventFilter(watched, event);
}

void WideColumn::fit()
{
    const QHeaderView& header = *m_table.horizontalHeader();
    const int others = header.length() - header.sectionSize(m_column);
    m_table.horizontalHeader()->resizeSection(m_column,
                                              std::max(m_least, m_table.viewport()->width() - others));
}

} // namespace widgets
