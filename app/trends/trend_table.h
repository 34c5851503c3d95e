#pragma once

#include "app/charts/trend_points.h"

#include <QAbstractTableModel>

namespace trends
{

/// The content of a chart as a table, one visit a row, oldest first.
class TrendTable : public QAbstractTableModel
{
    Q_OBJECT

public:
    using QAbstractTableModel::QAbstractTableModel;

    void show(const charts::TrendPoints& points);
    std::optional<records::VisitId> visit(int row) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;

private:
    struct Row {
        records::VisitId visit;
        QDate day;
        QStringList cells;
        QStringList plain; ///< the same for a spreadsheet
    };

    QStringList m_titles;
    QStringList m_plainTitles; ///< of values with their unit
    std::vector<Row> m_rows;
};

} // namespace trends
