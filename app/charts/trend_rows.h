#pragma once

#include "app/charts/trend_points.h"

namespace charts
{

/// What a chart shows as rows for a spreadsheet, under their titles: a line a visit and side, oldest first,
/// with numbers without their units. Data: the same in every language.
QList<QStringList> trendRows(const TrendPoints& points);

QByteArray csvOf(const TrendPoints& points);

/// The same divided by tabs, as the clipboard hands it to a spreadsheet.
QString tabbed(const TrendPoints& points);

} // namespace charts
