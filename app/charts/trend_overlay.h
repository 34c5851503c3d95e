#pragma once

#include "app/charts/mark.h"
#include "app/charts/trend_chart.h"

#include <QGraphicsItem>

namespace charts
{

/// Every word and mark on a chart: heading, axis labels, plumb lines, where conditions change, limits, and
/// the lane.
class TrendOverlay : public QGraphicsItem
{
public:
    explicit TrendOverlay(TrendChart& chart);

    void cover(const QRectF& area);
    QRectF boundingRect() const override { return m_area; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    double y(double number) const;
    void paintHead(QPainter& painter) const;
    void paintAxes(QPainter& painter) const;
    void paintPlumbLine(QPainter& painter, QDate day, bool isReference) const;
    void paintBreaks(QPainter& painter) const;
    void paintCapped(QPainter& painter) const;
    void paintLimits(QPainter& painter) const;
    void paintRemarks(QPainter& painter) const;

    TrendChart& m_chart;
    ChartFonts m_fonts;
    QRectF m_area;
};

} // namespace charts
