#include "app/changes/strip.h"

#include "app/widgets/theme.h"

#include <QPolygonF>

#include <algorithm>
#include <cmath>

namespace changes
{

namespace
{

using interpretation::Verdict;

constexpr double half = 5; ///< of a mark

QColor colourOf(Verdict verdict, const widgets::Colours& colours)
{
    switch (verdict) {
    case Verdict::Improved:
    case Verdict::BecameAble:
        return colours.better;
    case Verdict::Declined:
    case Verdict::BecameUnable:
        return colours.worse;
    case Verdict::WithinError:
    case Verdict::NotComparable:
    case Verdict::NoThreshold:
        break;
    }
    return colours.unsure;
}

void drawScale(QPainter& painter, const QRectF& area, bool hasScale, const widgets::Colours& colours)
{
    const QPointF centre = area.center();
    const double unit = area.width() / (2 * stripEnd);
    if (hasScale) {
        painter.fillRect(QRectF(centre.x() - unit, centre.y() - 9, 2 * unit, 18), colours.shade);
        painter.setPen(QPen(colours.edge, 1));
        painter.drawLine(QPointF(area.left(), centre.y()), QPointF(area.right(), centre.y()));
        for (int at = -int(stripEnd); at <= int(stripEnd); ++at)
            painter.drawLine(centre + QPointF(at * unit, -2), centre + QPointF(at * unit, 2));
    } else {
        painter.setPen(QPen(colours.line, 1, Qt::DotLine));
        painter.drawLine(QPointF(area.left(), centre.y()), QPointF(area.right(), centre.y()));
    }
    painter.setPen(QPen(colours.edge, 1));
    painter.drawLine(centre + QPointF(0, -9), centre + QPointF(0, 9));
}

/// A chevron at the end of the strip: the difference goes further than the strip does.
void drawArrow(QPainter& painter, const QPointF& tip, double direction, const QColor& colour)
{
    painter.setPen(QPen(colour, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(
        QPolygonF{{tip.x() - direction * 4, tip.y() - 5}, tip, {tip.x() - direction * 4, tip.y() + 5}});
}

} // namespace

Strip strip(const interpretation::Comparison& comparison, catalogue::Direction better)
{
    Strip made;
    made.verdict = comparison.verdict;
    const auto before = values::number(comparison.reference.finding.value);
    const auto now = values::number(comparison.now.finding.value);
    if (!before || !now || better == catalogue::Direction::Neither ||
        comparison.verdict == Verdict::NotComparable)
        return made;
    const double sign = better == catalogue::Direction::HigherIsBetter ? 1 : -1;
    const double difference = comparison.difference.value_or(*now - *before);
    made.hasScale = comparison.difference && comparison.threshold;
    made.position = sign * difference;
    if (made.hasScale)
        made.position /= comparison.threshold->limitFor(difference, better);
    return made;
}

void drawVerdict(QPainter& painter, Verdict verdict, const QPointF& at, const widgets::Colours& colours)
{
    const QColor colour = colourOf(verdict, colours);
    const QRectF box(at.x() - half, at.y() - half, 2 * half, 2 * half);
    painter.setPen(QPen(colour, 1.8));
    painter.setBrush(Qt::NoBrush);
    switch (verdict) {
    case Verdict::Improved:
        painter.setBrush(colour);
        painter.drawPolygon(QPolygonF{box.topLeft(), {box.right(), at.y()}, box.bottomLeft()});
        break;
    case Verdict::Declined:
        painter.setBrush(colour);
        painter.drawPolygon(QPolygonF{box.topRight(), {box.left(), at.y()}, box.bottomRight()});
        break;
    case Verdict::WithinError:
        painter.setBrush(colour);
        painter.drawEllipse(at, half * 0.7, half * 0.7);
        break;
    case Verdict::NotComparable:
        painter.drawPolygon(QPolygonF{
            {at.x(), box.top()}, {box.right(), at.y()}, {at.x(), box.bottom()}, {box.left(), at.y()}});
        break;
    case Verdict::NoThreshold:
        painter.setPen(QPen(colour, 3));
        painter.drawLine(QPointF(box.left(), at.y()), QPointF(box.right(), at.y()));
        break;
    case Verdict::BecameUnable:
        painter.drawRect(box);
        painter.drawLine(QPointF(box.left() - 3, at.y()), QPointF(box.right() + 3, at.y()));
        break;
    case Verdict::BecameAble:
        painter.drawRect(box);
        break;
    }
}

void drawStrip(QPainter& painter, const Strip& strip, const QRectF& area, const widgets::Colours& colours)
{
    if (!strip.verdict)
        return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    drawScale(painter, area, strip.hasScale, colours);
    const double side = strip.position > 0 ? 1 : strip.position < 0 ? -1 : 0;
    double place = side; // without a scale: only on which side
    if (strip.hasScale)
        place = std::clamp(strip.position, -stripEnd, stripEnd);
    else if (*strip.verdict == Verdict::BecameUnable || *strip.verdict == Verdict::BecameAble)
        place = *strip.verdict == Verdict::BecameAble ? stripEnd : -stripEnd;
    const bool isBeyond = strip.hasScale && std::abs(strip.position) > stripEnd;
    const double room = area.width() / 2 - half - 1;
    double x = area.center().x() + std::clamp(place * area.width() / (2 * stripEnd), -room, room);
    if (isBeyond) {
        drawArrow(painter, {area.center().x() + side * area.width() / 2, area.center().y()}, side,
                  colourOf(*strip.verdict, colours));
        x -= side * 8;
    }
    drawVerdict(painter, *strip.verdict, {x, area.center().y()}, colours);
    painter.restore();
}

} // namespace changes
