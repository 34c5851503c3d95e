#pragma once

#include <QChart>

#include <memory>

namespace charts
{

/// Draws a chart into an area of paper or of a picture, laid out `pixelsWide` wide.
void drawChart(std::unique_ptr<QChart> chart, QPainter& painter, const QRectF& area, double pixelsWide);

} // namespace charts
