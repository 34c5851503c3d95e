#pragma once

#include "app/widgets/on_paper.h"

#include <QObject>

class QAbstractItemModel;
class QTableView;

namespace widgets
{

/// Of a cell or a column's title: how a spreadsheet reckons with it, where that is not how it is shown. A
/// number stands bare where the column or the row says its unit, a day is written 2024-03-01.
inline constexpr int PlainRole = Qt::UserRole + 100;

/// What every table offers by keys and on its menu, besides the actions that were added to it: the selected
/// rows copied under their column titles, as a spreadsheet or a letter takes them, and the whole table
/// printed.
class TableMenu : public QObject
{
    Q_OBJECT

public:
    /// Without a sheet the table is not printed.
    TableMenu(QTableView& table, std::function<Sheet()> sheet);

    QString text() const;    ///< of the selected rows, cells divided by tabs
    QString html() const;    ///< the same as a table
    QString onPaper() const; ///< HTML of all rows that are shown
    void print() const;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void copy() const;

    QTableView& m_table;
    std::function<Sheet()> m_sheet;
};

} // namespace widgets
