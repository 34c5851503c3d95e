#pragma once

#include "app/charts/trend_points.h"

#include <QFont>
#include <QRectF>

namespace charts
{

/// The three types of a chart, in pixels, so that a page of another resolution scales them with everything
/// else.
struct ChartFonts {
    QFont heading;
    QFont body;
    QFont caption;
};

ChartFonts chartFonts();

/// Where the parts of a chart lie. Left and right margins are the same for every measure, so that stacked
/// charts align.
struct Frame {
    QRectF head;       ///< title, and the heading of each side
    QRectF words;      ///< above the plot: of the plumb lines, and under them what changed
    QRectF happenings; ///< under the words of the plumb lines, where there are any
    QRectF plot;
    QRectF lane;   ///< one row a side that has something in it
    QRectF events; ///< one row where there are any
    QRectF dates;
    QRectF remarks; ///< one row each
    double row = 0; ///< height of a row
};

Frame frame(const TrendPoints& points, const QString& note, const QSizeF& size);

/// The height at which the plot is as high as it reads well.
double heightFor(const TrendPoints& points, const QString& note);

/// The remarks and the note in rows that are not cut at the width of a letter.
QStringList remarkRows(const TrendPoints& points, const QString& note);

/// The lines that have something in the lane.
std::vector<const TrendLine*> laneRows(const TrendPoints& points);

} // namespace charts
