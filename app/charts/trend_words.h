#pragma once

#include "app/charts/trend_points.h"

namespace charts
{

/// "12.4 s on 03-Nov-2026; previous 14.1 s on 04-May-2026; against 02-Feb-2026: better beyond
/// error".
QString nowWords(const TrendLine& line, const base::Phrasebook& phrases);

/// The same in rows that are not cut at the width of a letter.
QStringList headingRows(const TrendLine& line, const base::Phrasebook& phrases);

/// What one visit holds: its day, and of each side the result, its difference and what that comes to; then
/// what happened there and under which conditions.
QString readingWords(const TrendPoints& points, const records::VisitId& visit,
                     const base::Phrasebook& phrases);

/// The whole trend for someone who cannot see it: latest and previous value of each side with verdict,
/// events, and the remarks.
QString spoken(const TrendPoints& points, const base::Phrasebook& phrases);

} // namespace charts
