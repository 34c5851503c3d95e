#pragma once

#include "app/changes/arrangement.h"
#include "app/charts/axis.h"

#include <QAbstractTableModel>

namespace changes
{

/// The lines of the table. Titles and folds reach over all columns; a fold can be chosen and opened.
class ChangeModel : public QAbstractTableModel
{
    Q_OBJECT

public:
    enum Column {
        Measure,
        Side,
        Reference,
        Previous,
        Now,
        Course,
        Difference,
        Verdict,
        JudgedBy,
        ColumnCount
    };

    using QAbstractTableModel::QAbstractTableModel;

    /// Shows nothing until the lines are arranged.
    void take(std::vector<Row> rows, Against against, const charts::Axis& time);
    void arrange(std::vector<Line> lines);

    const std::vector<Row>& rows() const { return m_rows; }

    /// nullptr for a title and a fold.
    const Row* row(int place) const;
    const Line* line(int place) const; ///< nullptr beyond the last
    bool isWide(int place) const;      ///< a title or a fold
    const charts::Axis& time() const { return m_time; }
    int firstRow() const;                                          ///< −1 without rows
    int placeOf(const QString& measure, records::Side side) const; ///< −1 where it is not shown

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

private:
    QString text(const Row& row, int column) const;
    QString plain(const Row& row, int column) const; ///< for a spreadsheet

    std::vector<Row> m_rows;
    std::vector<Line> m_lines;
    Against m_against = Against::Course;
    charts::Axis m_time;
};

} // namespace changes
