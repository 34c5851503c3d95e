#pragma once

#include <QObject>

class QTableView;

namespace widgets
{

/// Gives one column of a table the room that the others leave, and never less than `least`, so that a title
/// is still read where the other columns are wide; the table then scrolls. Lives as long as the table.
class WideColumn : public QObject
{
public:
    WideColumn(QTableView& table, int column, int least);

private:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void fit();

    QTableView& m_table;
    int m_column;
    int m_least;
};

} // namespace widgets
