#pragma once

#include "app/charts/trend_points.h"

#include <QPainter>

#include <functional>

namespace widgets
{
struct Colours;
}

namespace charts
{

/// Those of the days that are shown; what began earlier or went on later is drawn as far as they reach.
std::vector<TrendHappening> happeningsWithin(const std::vector<records::Happening>& happenings, QDate from,
                                             QDate to, const base::Phrasebook& phrases);

/// "Between visits: a: fall with injury (04-Feb-2026)." Empty where there are none.
QString happeningsTold(const std::vector<TrendHappening>& happenings, const base::Phrasebook& phrases);

/// In one row a mark with its letter before it, and a bar to the last day.
void drawHappenings(QPainter& painter, const std::vector<TrendHappening>& happenings, const QRectF& row,
                    const std::function<double(QDate)>& x, const widgets::Colours& colours);

} // namespace charts
