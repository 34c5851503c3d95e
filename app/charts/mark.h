#pragma once

#include <QColor>
#include <QPainter>

namespace charts
{

enum class Mark {
    Circle,
    Square,
    OpenCircle,
    OpenDiamond,
    OpenTriangle,
    OpenSquare,
    BarredSquare,
    Equal,
    Unequal
};

/// Draws a mark of the given width around a point.
void drawMark(QPainter& painter, Mark mark, const QPointF& at, double width, const QColor& colour);

} // namespace charts
