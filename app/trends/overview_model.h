#pragma once

#include "app/charts/trend_points.h"
#include "app/trends/overview.h"

#include <QAbstractTableModel>
#include <QSet>

namespace trends
{

/// What the column of courses hangs on: the days of all visits, and the two plumb lines.
struct OverviewTime {
    charts::Axis axis;
    std::optional<QDate> visitDay;
    std::optional<QDate> referenceDay;
    std::vector<charts::TrendHappening> happenings;
};

/// The overview as a table, one measure a row, each to be ticked for its chart.
class OverviewModel : public QAbstractTableModel
{
    Q_OBJECT

public:
    enum Column { Test, Course, First, Now, Meaning, ColumnCount };

    using QAbstractTableModel::QAbstractTableModel;

    /// Shows nothing until it is asked. Keeps the ticks of measures that stay.
    void take(std::vector<OverviewRow> rows, OverviewTime time);
    void ask(const OverviewAsked& asked);

    const std::vector<OverviewRow>& rows() const { return m_rows; }
    const OverviewRow& row(int place) const { return m_rows[m_shown[size_t(place)]]; }
    int placeOf(const QString& measure) const; ///< −1 where it is not shown
    const OverviewTime& time() const { return m_time; }

    void toggle(int place);
    void untick();
    QStringList ticked() const; ///< in the order of the rows, also those that are not shown

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role = Qt::EditRole) override;
    QVariant headerData(int section, Qt::Orientation orientation, int role = Qt::DisplayRole) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

Q_SIGNALS:
    void ticksChanged();

private:
    std::vector<OverviewRow> m_rows;
    std::vector<size_t> m_shown;
    OverviewTime m_time;
    QSet<QString> m_ticked;
};

} // namespace trends
