#pragma once

#include <QObject>

class QTableView;

namespace widgets
{

/// Copying in the table takes the selected rows under their column titles, cells divided by tabs, as a
/// spreadsheet or a letter takes them.
class CopyRows : public QObject
{
    Q_OBJECT

public:
    explicit CopyRows(QTableView& table);

    QString text() const;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    QTableView& m_table;
};

} // namespace widgets
