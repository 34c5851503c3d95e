#include "app/charts/limits.h"

#include "core/interpretation/terms.h"

#include <cmath>
#include <limits>

namespace charts
{

namespace
{

/// The value at which a difference from the reference equals its limit, approached step by step.
double limitValue(const catalogue::Threshold& row, double reference, bool improved,
                  catalogue::Direction better)
{
    const double sign = improved == (better == catalogue::Direction::HigherIsBetter) ? 1 : -1;
    double value = reference;
    for (int step = 0; step < 60; ++step) {
        const auto at = interpretation::applied(row, reference, value, better);
        if (!at)
            return std::numeric_limits<double>::infinity();
        value = reference + sign * (improved ? at->improvement : at->decline);
    }
    return value;
}

} // namespace

TrendLimits limitsAround(const records::Occasion& reference, const interpretation::Applied& used,
                         const catalogue::Measure& measure, const catalogue::Catalogue& catalogue,
                         const base::Phrasebook& phrases)
{
    TrendLimits made;
    made.day = reference.day;
    made.reference = values::number(reference.finding.value).value_or(0);
    made.source = interpretation::sourceWords(used.row, catalogue, phrases);
    const double improved = limitValue(used.row, made.reference, true, measure.better);
    const double declined = limitValue(used.row, made.reference, false, measure.better);
    const auto onScale = [&](double value) {
        return std::isfinite(value) && !(measure.lowest && values::exceeds(*measure.lowest, value)) &&
               !(measure.highest && values::exceeds(value, *measure.highest));
    };
    if (onScale(improved))
        made.improved = improved;
    if (onScale(declined))
        made.declined = declined;
    return made;
}

} // namespace charts
