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
    paintTints(*painter);
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

void TrendGrid::paintTints(QPainter& painter) const
{
    const QRectF& plot = m_chart.frame().plot;
    const Axis& time = m_chart.time();
    const Axis& values = m_chart.values();
    const double across = plot.width() / (time.to - time.from);
    const double up = -plot.height() / (values.to - values.from);
    const QTransform place(across, 0, 0, up, plot.left() - time.from * across,
                           plot.bottom() - values.from * up);
    painter.save();
    painter.setClipRect(plot);
    for (const Tint& tint : m_chart.tints())
        painter.fillPath(place.map(tint.area), tint.colour);
    painter.restore();
}

} // namespace charts
