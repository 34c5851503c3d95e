#pragma once

#include "app/charts/trend_points.h"

namespace charts
{

struct Tick {
    double at = 0; ///< a number of the measure, or a Julian day
    QString words;
};

struct Axis {
    double from = 0;
    double to = 1;
    std::vector<Tick> ticks;

    /// Where a number lies between the ends: 0 to 1.
    double share(double at) const { return (at - from) / (to - from); }
};

/// Julian days from somewhat before the first day to somewhat after the last, so no clock or time zone plays
/// a part. Without labels.
Axis daysAxis(QDate from, QDate to);

/// The axis labelled at the start of days, weeks, months, quarters or years, at most `most` times.
Axis withDates(Axis days, int most, const base::Phrasebook& phrases);

/// The steps of an ordinal axis; else round numbers around every value, shading and limit. Need not begin at
/// zero, and is never so narrow that a change of the finest recorded difference fills it.
Axis valueAxis(const TrendPoints& points);

/// Somewhat more than the numbers, labelled at round ones.
Axis roundAxis(double low, double high);

} // namespace charts
