#include "app/changes/course_line.h"

#include "app/widgets/theme.h"

#include <QPolygonF>

#include <algorithm>

namespace changes
{

namespace
{

constexpr double ring = 2;
constexpr double dot = 3;
constexpr double tick = 8; ///< of a target, beside the course

/// Where a result lies.
class PointPlaces
{
public:
    PointPlaces(const std::vector<CoursePoint>& course, const TimeSpan& span, const QRectF& area,
                const std::optional<double>& target)
        : m_span(span),
          m_area(area.adjusted(dot, dot + 2, -dot - tick, -dot - 2)),
          m_lowest(target),
          m_highest(target)
    {
        for (const CoursePoint& point : course) {
            if (!point.number)
                continue;
            m_lowest = m_lowest ? std::min(*m_lowest, *point.number) : *point.number;
            m_highest = m_highest ? std::max(*m_highest, *point.number) : *point.number;
        }
    }

    QPointF of(const CoursePoint& point) const
    {
        const double days = double(m_span.from.daysTo(m_span.to));
        const double share = days > 0 ? double(m_span.from.daysTo(point.day)) / days : 1;
        return {m_area.left() + share * m_area.width(), height(point)};
    }

    QLineF ofTarget(double target) const
    {
        const double y = height({{}, target});
        return {m_area.right() + dot + 1, y, m_area.right() + dot + tick, y};
    }

private:
    double height(const CoursePoint& point) const
    {
        if (!point.number)
            return !point.isUnable ? m_area.center().y() : point.isBestLow ? m_area.top() : m_area.bottom();
        const double range = *m_highest - *m_lowest;
        return range > 0 ? m_area.bottom() - (*point.number - *m_lowest) / range * m_area.height()
                         : m_area.center().y();
    }

    TimeSpan m_span;
    QRectF m_area;
    std::optional<double> m_lowest;
    std::optional<double> m_highest;
};

} // namespace

void drawCourse(QPainter& painter, const std::vector<CoursePoint>& course, const TimeSpan& span,
                const QRectF& area, const QColor& newest, const std::optional<double>& target,
                const widgets::Colours& colours)
{
    if (course.empty())
        return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const PointPlaces places(course, span, area, target);
    if (target) {
        painter.setPen(QPen(colours.text, 2, Qt::SolidLine, Qt::FlatCap));
        painter.drawLine(places.ofTarget(*target));
    }
    QPolygonF line;
    painter.setPen(QPen(colours.text, 1.2));
    painter.setBrush(Qt::NoBrush);
    for (const CoursePoint& point : course) {
        const QPointF place = places.of(point);
        if (point.isUnable) {
            painter.drawLine(place - QPointF(ring, 0), place + QPointF(ring, 0));
            painter.drawPolyline(line);
            line.clear();
        } else if (!point.isComparable) {
            painter.drawEllipse(place, ring, ring);
        } else {
            line << place;
        }
    }
    painter.drawPolyline(line);
    painter.setPen(Qt::NoPen);
    painter.setBrush(newest);
    painter.drawEllipse(places.of(course.back()), dot, dot);
    painter.restore();
}

} // namespace changes
