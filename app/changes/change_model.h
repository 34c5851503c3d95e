#pragma once

#include "app/changes/rows.h"

#include <QAbstractTableModel>

namespace changes
{

/// The rows as a table, each section under a row of its own that cannot be selected.
class ChangeModel : public QAbstractTableModel
{
    Q_OBJECT

public:
    enum Column { Measure, Side, Reference, Day, Now, Difference, StripColumn, Verdict, ColumnCount };

    using QAbstractTableModel::QAbstractTableModel;

    void show(const std::vector<Row>& rows);

    /// nullptr for a section's row.
    const Row* row(int place) const;
    bool isSection(int place) const;
    /// The row to begin with: the first turn between able and unable, else the first change beyond error
    /// or sustained, else the first that was judged at all, else the first; −1 without rows.
    int tellingRow() const;
    int placeOf(const QString& measure, records::Side side) const; ///< −1 where it is not shown

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

private:
    struct Line {
        bool isSection = false;
        size_t row = 0; ///< the row, or the first of the section
    };

    QString text(const Row& row, int column) const;

    std::vector<Row> m_rows;
    std::vector<Line> m_lines;
};

} // namespace changes
