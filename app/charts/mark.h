#pragma once

#include <QColor>
#include <QPainter>

namespace charts
{

enum class Mark {
    Circle,
    Square,
    OpenCircle,
    OpenCircleUp, ///< with an arrow up: at least that
    OpenDiamond,
    OpenTriangle,
    OpenSquare,
    OpenSquareUp,
    BarredSquare,
    Equal,
    Unequal
};

/// Draws a mark of the given width around a point.
void drawMark(QPainter& painter, Mark mark, const QPointF& at, double width, const QColor& colour);

} // namespace charts
