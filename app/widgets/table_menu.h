#pragma once

#include <QObject>

#include <functional>

class QTableView;

namespace widgets
{

/// What every table offers by keys and on its menu, besides the actions that were added to it: the selected
/// rows copied under their column titles, cells divided by tabs, as a spreadsheet or a letter takes them, and
/// the whole table printed.
class TableMenu : public QObject
{
    Q_OBJECT

public:
    /// The title says on paper what the table shows, and of whom.
    TableMenu(QTableView& table, std::function<QString()> title);

    QString text() const; ///< of the selected rows
    QString html() const; ///< of all rows that are shown

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void copy() const;
    void print() const;

    QTableView& m_table;
    std::function<QString()> m_title;
};

} // namespace widgets
