#pragma once

#include "app/charts/trend_chart.h"

#include <QGraphicsItem>

namespace charts
{

/// What lies behind the series: what is shaded, and a line at every labelled number and date.
class TrendGrid : public QGraphicsItem
{
public:
    explicit TrendGrid(TrendChart& chart);

    void cover(const QRectF& area);
    QRectF boundingRect() const override { return m_area; }
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    void paintTints(QPainter& painter) const;

    TrendChart& m_chart;
    QRectF m_area;
};

} // namespace charts
