#pragma once

#include "app/charts/frame.h"

class QPainter;

namespace charts
{

class TrendChart;

/// What could not be done or was not asked, a row a side under the plot.
void paintLane(QPainter& painter, const TrendChart& chart, const ChartFonts& fonts);

/// What happened between visits, in one row above the plot: a mark and its letter, a bar to the last day.
void paintHappenings(QPainter& painter, const TrendChart& chart, const ChartFonts& fonts);

/// The turns on the time line, in one row under the lane. Without room for its words a mark stands alone.
void paintEvents(QPainter& painter, const TrendChart& chart, const ChartFonts& fonts);

} // namespace charts
