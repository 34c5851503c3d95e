#include "app/widgets/happening_mark.h"

#include <QPolygonF>

namespace widgets
{

void drawHappening(QPainter& painter, const QPointF& at, double width, records::HappeningKind kind,
                   const QColor& colour)
{
    using records::HappeningKind;
    const double half = width / 2;
    const QRectF box(at.x() - half, at.y() - half, width, width);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colour, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::MiterJoin));
    painter.setBrush(colour);
    switch (kind) {
    case HappeningKind::Fall:
        painter.drawPolygon(QPolygonF{box.topLeft(), box.topRight(), {at.x(), box.bottom()}});
        break;
    case HappeningKind::Relapse:
        painter.drawPolygon(QPolygonF{
            {at.x(), box.top()}, {box.right(), at.y()}, {at.x(), box.bottom()}, {box.left(), at.y()}});
        break;
    case HappeningKind::Surgery:
    case HappeningKind::BotulinumToxin:
        painter.drawLine(QPointF(box.left(), at.y()), QPointF(box.right(), at.y()));
        painter.drawLine(QPointF(at.x(), box.top()), QPointF(at.x(), box.bottom()));
        break;
    case HappeningKind::MedicationBegun:
    case HappeningKind::MedicationStopped:
    case HappeningKind::MedicationChanged:
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(box);
        painter.drawLine(QPointF(at.x(), box.top()), QPointF(at.x(), box.bottom()));
        break;
    case HappeningKind::AidChanged:
    case HappeningKind::TherapyBlock:
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(box);
        break;
    case HappeningKind::Infection:
    case HappeningKind::Other:
        painter.drawEllipse(at, half / 2, half / 2);
        break;
    }
    painter.restore();
}

} // namespace widgets
