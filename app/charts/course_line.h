#pragma once

#include "app/charts/axis.h"

#include "core/judging/change.h"

#include <QColor>
#include <QPainter>

namespace widgets
{
struct Colours;
}

namespace charts
{

/// One result on the small line of a course.
struct CoursePoint {
    QDate day;
    std::optional<double> number; ///< where it stands on the axis of its measure; empty where it is none
    bool isUnable = false;
    bool isBestLow = false;    ///< less is better, so that unable stands at the top
    bool isComparable = false; ///< with the newest one

    bool operator==(const CoursePoint&) const = default;
};

/// The course of one side, as it is drawn.
struct Course {
    std::vector<CoursePoint> points; ///< oldest first
    std::optional<double> target;
    records::Side side = records::Side::None; ///< left is dashed and square
    QColor colour;
    QColor newest;   ///< of the last result
    double mark = 0; ///< width of the results before the last; 0: the line alone
};

/// The results of a measure and side up to a change, which are what was done or tried.
std::vector<CoursePoint> coursePoints(const judging::Change& change,
                                      const std::vector<records::Occasion>& history,
                                      const catalogue::Measure& measure);

/// Where a day stands in the area of a course.
double courseX(const Axis& time, const QRectF& area, QDate day);

/// The courses of one measure as small as words: a line through what is comparable with the newest result,
/// rings for what is not, a bar on the worse side for unable, the newest one larger, a short stroke at the
/// right for a target. Right and left share one scale.
void drawCourses(QPainter& painter, const std::vector<Course>& courses, const Axis& time, const QRectF& area,
                 const widgets::Colours& colours);

} // namespace charts
