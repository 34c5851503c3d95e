#pragma once

#include "app/charts/axis.h"
#include "app/charts/chart_look.h"
#include "app/charts/frame.h"
#include "app/charts/mark.h"
#include "app/charts/time_window.h"
#include "app/charts/tints.h"

#include <QChart>
#include <QValueAxis>

namespace charts
{

class TrendGrid;
class TrendOverlay;

/// The chart of one measure: true time along the foot, values upward, what could not be done in a lane below.
/// Qt Charts draws joins, limits and points; shading, the grid and every word and mark are drawn by two items
/// of its own.
class TrendChart : public QChart
{
public:
    TrendChart(const TrendPoints& points, const ChartLook& look, const base::Phrasebook& phrases,
               QGraphicsItem* parent = nullptr);

    const TrendPoints& points() const { return m_points; }
    const ChartLook& look() const { return m_look; }
    const base::Phrasebook& phrases() const { return m_phrases; }
    const Frame& frame() const { return m_frame; }
    const Axis& time() const { return m_time; } ///< as much of it as is shown
    double x(QDate day) const;
    bool isShown(QDate day) const;
    /// Shows a part of the time axis. The values keep their axis, so that no change looks larger.
    void show(const TimeWindow& window);
    const Axis& values() const { return m_values; }
    /// What is shaded, in Julian days and numbers of the measure.
    const std::vector<Tint>& tints() const { return m_tints; }

    /// The visit whose day is nearest to a place in the chart, at most 16 px away.
    std::optional<records::VisitId> visitNear(const QPointF& place) const;

private:
    void addTint(const QPolygonF& area, QColor colour, float strength);
    void addRange(const TrendRange& range);
    void addLine(const TrendLine& line);
    void addRun(const std::vector<const TrendEntry*>& run, const TrendLine& line);
    void addLevel(double value, double from, const QPen& pen);
    void addSlope(const TrendSlope& slope, const QColor& colour);
    void addShade(const std::vector<const TrendEntry*>& run, double error, const QColor& colour);
    double height(const TrendEntry& entry, records::Side side) const;
    void attach(QAbstractSeries* series);
    void settle();
    void setDates(); ///< as many as there is room for

    TrendPoints m_points;
    ChartLook m_look;
    base::Phrasebook m_phrases;
    TimeWindow m_window;
    Axis m_time;
    Axis m_values;
    std::vector<Tint> m_tints;
    Frame m_frame;
    QValueAxis* m_timeAxis;
    QValueAxis* m_valueAxis;
    TrendGrid* m_grid;
    TrendOverlay* m_overlay;
};

/// Right and left are told apart by colour, by shape and by dash.
QColor colourOf(records::Side side, const ChartLook& look);
Mark markOf(records::Side side);

} // namespace charts
