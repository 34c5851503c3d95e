#pragma once

#include "app/changes/rows.h"

#include <QColor>
#include <QPainter>

namespace widgets
{
struct Colours;
}

namespace changes
{

/// The days at both ends of the ribbon.
struct TimeSpan {
    QDate from;
    QDate to;

    bool operator==(const TimeSpan&) const = default;
};

/// A course as small as a word, on the time axis of the ribbon: a line through what is comparable with the
/// newest result, rings for what is not, a bar on the worse side for unable, the newest one as a dot, a short
/// stroke at the right for a target.
void drawCourse(QPainter& painter, const std::vector<CoursePoint>& course, const TimeSpan& span,
                const QRectF& area, const QColor& newest, const std::optional<double>& target,
                const widgets::Colours& colours);

} // namespace changes
