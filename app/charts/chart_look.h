#pragma once

#include "app/widgets/theme.h"

#include <QString>

namespace charts
{

/// How a chart is drawn.
struct ChartLook {
    widgets::Colours colours; ///< of the screen, or of paper
    bool joinPoints = true;
    QString note = {};     ///< a line at the foot of an exported chart: whose it is, and whether it is a demo
    bool isOpaque = false; ///< no colour lets another through, as PDF/A asks
};

/// Black on white, for files and letters.
ChartLook paperLook();

} // namespace charts
