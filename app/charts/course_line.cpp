#include "app/charts/course_line.h"

#include "app/widgets/theme.h"

#include <QPolygonF>

#include <algorithm>

namespace charts
{

namespace
{

using records::Side;

constexpr double ring = 2;
constexpr double dot = 3;
constexpr double tick = 8;    ///< of a target, beside the course
constexpr double apart = 1.5; ///< of two sides, so that both are seen where they are the same

QRectF roomForPoints(const QRectF& area)
{
    return area.adjusted(dot, dot + 2, -dot - tick, -dot - 2);
}

/// Where a result lies.
class PointPlaces
{
public:
    PointPlaces(const std::vector<Course>& courses, const Axis& time, const QRectF& area)
        : m_time(time), m_whole(area), m_area(roomForPoints(area))
    {
        for (const Course& course : courses) {
            take(course.target);
            for (const CoursePoint& point : course.points)
                take(point.number);
        }
    }

    QPointF of(const CoursePoint& point) const
    {
        return {courseX(m_time, m_whole, point.day), height(point)};
    }

    QLineF ofTarget(double target) const
    {
        const double y = height({{}, target});
        return {m_area.right() + dot + 1, y, m_area.right() + dot + tick, y};
    }

private:
    void take(const std::optional<double>& number)
    {
        if (!number)
            return;
        m_lowest = m_lowest ? std::min(*m_lowest, *number) : *number;
        m_highest = m_highest ? std::max(*m_highest, *number) : *number;
    }

    double height(const CoursePoint& point) const
    {
        if (!point.number)
            return !point.isUnable ? m_area.center().y() : point.isBestLow ? m_area.top() : m_area.bottom();
        const double range = *m_highest - *m_lowest;
        return range > 0 ? m_area.bottom() - (*point.number - *m_lowest) / range * m_area.height()
                         : m_area.center().y();
    }

    const Axis& m_time;
    QRectF m_whole;
    QRectF m_area;
    std::optional<double> m_lowest;
    std::optional<double> m_highest;
};

void drawPoint(QPainter& painter, const QPointF& place, double half, Side side)
{
    const QRectF box(place - QPointF(half, half), QSizeF(2 * half, 2 * half));
    if (side == Side::Left)
        painter.drawRect(box);
    else
        painter.drawEllipse(box);
}

void drawCourse(QPainter& painter, const Course& course, const PointPlaces& places)
{
    QPolygonF line;
    QPolygonF marked;
    const QPen stroke(course.colour, 1);
    QPen joined = stroke;
    if (course.side == Side::Left)
        joined.setDashPattern({4, 2.5});
    const auto draw = [&] {
        painter.setPen(joined);
        painter.drawPolyline(line);
        line.clear();
    };
    painter.setBrush(Qt::NoBrush);
    for (const CoursePoint& point : course.points) {
        const QPointF place = places.of(point);
        painter.setPen(stroke);
        if (point.isUnable) {
            painter.drawLine(place - QPointF(ring, 0), place + QPointF(ring, 0));
            draw();
        } else if (!point.isComparable) {
            drawPoint(painter, place, ring, course.side);
        } else {
            line << place;
            marked << place;
        }
    }
    draw();
    painter.setPen(Qt::NoPen);
    painter.setBrush(course.colour);
    for (const QPointF& place : course.mark > 0 ? marked : QPolygonF())
        drawPoint(painter, place, course.mark / 2, course.side);
    painter.setBrush(course.newest);
    drawPoint(painter, places.of(course.points.back()), dot, course.side);
}

} // namespace

std::vector<CoursePoint> coursePoints(const judging::Change& change,
                                      const std::vector<records::Occasion>& history,
                                      const catalogue::Measure& measure)
{
    std::vector<CoursePoint> points;
    for (const records::Occasion& occasion : history) {
        const auto& value = occasion.finding.value;
        if (!values::isDone(value) && !values::isUnable(value))
            continue;
        const bool isComparable = std::ranges::find(change.course.run, occasion.visit,
                                                    &judging::RunPoint::visit) != change.course.run.end();
        points.push_back({occasion.day, heightOf(value, measure), values::isUnable(value),
                          measure.better == catalogue::Direction::LowerIsBetter, isComparable});
    }
    return points;
}

double courseX(const Axis& time, const QRectF& area, QDate day)
{
    const QRectF room = roomForPoints(area);
    return room.left() + time.share(double(day.toJulianDay())) * room.width();
}

void drawCourses(QPainter& painter, const std::vector<Course>& courses, const Axis& time, const QRectF& area,
                 const widgets::Colours& colours)
{
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const PointPlaces places(courses, time, area);
    for (const Course& course : courses) {
        if (course.points.empty())
            continue;
        painter.save();
        if (courses.size() > 1)
            painter.translate(0, course.side == Side::Left ? apart : -apart);
        if (course.target) {
            painter.setPen(QPen(colours.text, 2, Qt::SolidLine, Qt::FlatCap));
            painter.drawLine(places.ofTarget(*course.target));
        }
        drawCourse(painter, course, places);
        painter.restore();
    }
    painter.restore();
}

} // namespace charts
