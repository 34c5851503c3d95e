#pragma once

#include "core/judging/comparison.h"

#include <QColor>
#include <QPainter>

namespace widgets
{
struct Colours;
}

namespace changes
{

/// Where a difference stands on the change strip. Better is always to the right.
struct Strip {
    std::optional<judging::Verdict> verdict; ///< empty: nothing to compare with, and nothing to draw
    bool hasScale = false;                   ///< a threshold is known: −1 and 1 are the limits of error
    double position = 0; ///< in units of the limit on its side; without a scale only the sign counts
};

/// The ends of a strip, in units of the limit. A difference beyond is drawn at the end with an arrow.
inline constexpr double stripEnd = 3;

Strip strip(const judging::Comparison& comparison, catalogue::Direction better);

void drawStrip(QPainter& painter, const Strip& strip, const QRectF& area, const widgets::Colours& colours);

} // namespace changes
