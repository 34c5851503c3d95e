#include "app/charts/mark.h"

#include <QPolygonF>

namespace charts
{

namespace
{

void drawArrowUp(QPainter& painter, const QPointF& at, double half)
{
    const QPointF tip(at.x(), at.y() - 3 * half);
    painter.drawLine(QPointF(at.x(), at.y() - half), tip);
    painter.drawPolyline(
        QPolygonF{tip + QPointF(-half / 2, half / 2), tip, tip + QPointF(half / 2, half / 2)});
}

} // namespace

void drawMark(QPainter& painter, Mark mark, const QPointF& at, double width, const QColor& colour)
{
    const double half = width / 2;
    const QRectF box(at.x() - half, at.y() - half, width, width);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colour, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::MiterJoin));
    painter.setBrush(Qt::NoBrush);
    switch (mark) {
    case Mark::Circle:
        painter.setBrush(colour);
        painter.drawEllipse(box);
        break;
    case Mark::Square:
        painter.setBrush(colour);
        painter.drawRect(box);
        break;
    case Mark::OpenCircle:
        painter.drawEllipse(box);
        break;
    case Mark::OpenCircleUp:
        painter.drawEllipse(box);
        drawArrowUp(painter, at, half);
        break;
    case Mark::OpenDiamond:
        painter.drawPolygon(QPolygonF{
            {at.x(), box.top()}, {box.right(), at.y()}, {at.x(), box.bottom()}, {box.left(), at.y()}});
        break;
    case Mark::OpenTriangle:
        painter.drawPolygon(QPolygonF{box.topLeft(), box.topRight(), {at.x(), box.bottom()}});
        break;
    case Mark::OpenSquare:
        painter.drawRect(box);
        break;
    case Mark::OpenSquareUp:
        painter.drawRect(box);
        drawArrowUp(painter, at, half);
        break;
    case Mark::BarredSquare:
        painter.drawRect(box);
        painter.drawLine(QPointF(box.left() - 2, at.y()), QPointF(box.right() + 2, at.y()));
        break;
    case Mark::Unequal:
        painter.drawLine(QPointF(at.x() - half / 2, box.bottom()), QPointF(at.x() + half / 2, box.top()));
        [[fallthrough]];
    case Mark::Equal:
        for (const double aside : {-half / 3, half / 3})
            painter.drawLine(QPointF(box.left(), at.y() + aside), QPointF(box.right(), at.y() + aside));
        break;
    }
    painter.restore();
}

} // namespace charts
