#include "app/changes/strip.h"

#include "app/widgets/verdict_mark.h"

#include "core/judging/room.h"

#include <QPolygonF>

#include <algorithm>
#include <cmath>

namespace changes
{

namespace
{

using judging::Verdict;

constexpr double markWidth = 16;

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

Strip strip(const judging::Comparison& comparison, catalogue::Direction better)
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
    const auto inLimits = judging::inLimits(comparison, better);
    made.hasScale = inLimits.has_value();
    made.position = inLimits.value_or(sign * difference);
    return made;
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
    const double room = area.width() / 2 - markWidth / 2;
    double x = area.center().x() + std::clamp(place * area.width() / (2 * stripEnd), -room, room);
    if (isBeyond) {
        drawArrow(painter, {area.center().x() + side * area.width() / 2, area.center().y()}, side,
                  widgets::colourOf(*strip.verdict, colours));
        x -= side * 8;
    }
    const QRectF square(x - markWidth / 2, area.center().y() - markWidth / 2, markWidth, markWidth);
    widgets::drawVerdict(painter, square, *strip.verdict, colours);
    painter.restore();
}

} // namespace changes
