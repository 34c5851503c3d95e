#include "app/charts/trend_grid.h"

#include <QPainter>

namespace charts
{

TrendGrid::TrendGrid(TrendChart& chart) : QGraphicsItem(&chart), m_chart(chart)
{
    setAcceptedMouseButtons(Qt::NoButton);
}

void TrendGrid::cover(const QRectF& area)
{
    prepareGeometryChange();
    m_area = area;
}

void TrendGrid::paint(QPainter* painter, const QStyleOptionGraphicsItem*, QWidget*)
{
    const QRectF& plot = m_chart.frame().plot;
    painter->setPen(QPen(m_chart.look().colours.line, 1));
    for (const Tick& tick : m_chart.values().ticks) {
        const double y = plot.bottom() - m_chart.values().share(tick.at) * plot.height();
        painter->drawLine(QPointF(plot.left(), y), QPointF(plot.right(), y));
    }
    for (const Tick& tick : m_chart.time().ticks) {
        const double x = plot.left() + m_chart.time().share(tick.at) * plot.width();
        painter->drawLine(QPointF(x, plot.top()), QPointF(x, m_chart.frame().dates.top() + 3));
    }
    painter->setPen(QPen(m_chart.look().colours.edge, 1));
    painter->drawLine(plot.bottomLeft(), plot.bottomRight());
}

} // namespace charts
