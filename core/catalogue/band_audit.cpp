#include "core/catalogue/band_audit.h"

#include "core/values/quantity.h"

#include <cmath>
#include <map>

namespace catalogue
{

namespace
{

double low(const Threshold* row)
{
    return row->bandLow.value_or(-HUGE_VAL);
}

double high(const Threshold* row)
{
    return row->bandHigh.value_or(HUGE_VAL);
}

/// What the rows of one published series have in common.
QString series(const Threshold& row)
{
    return QStringList{row.measure,
                       row.population,
                       row.source,
                       row.bandOf,
                       row.hand,
                       written(row.condition),
                       QString::number(int(row.answers)),
                       QString::number(int(row.design))}
        .join(QLatin1Char('\n'));
}

bool namesTheGap(const Threshold* row)
{
    return row->note.contains(QLatin1String("gap"), Qt::CaseInsensitive);
}

void auditNeighbours(base::Messages& faults, const Threshold* lower, const Threshold* upper, double step)
{
    const double end = high(lower);
    const bool overlaps = lower->bandHighIncluded ? low(upper) <= end : low(upper) < end;
    const double next = lower->bandHighIncluded ? end + step : end;
    if (overlaps)
        faults.push_back(base::said("%1: the band overlaps that of %2.").arg(upper->id, lower->id));
    else if (values::exceeds(low(upper), next) && !namesTheGap(lower) && !namesTheGap(upper))
        faults.push_back(base::said("%1: there is a silent gap between its band and that of %2.")
                             .arg(upper->id, lower->id));
}

void auditEnds(base::Messages& faults, const Threshold& row, const Measure& measure)
{
    for (const auto& end : {row.bandLow, row.bandHigh}) {
        const bool isInside =
            !end || (*end >= measure.lowest.value_or(*end) && *end <= measure.highest.value_or(*end));
        if (!isInside)
            faults.push_back(
                base::said("%1: the band reaches outside the scale of “%2”.").arg(row.id, measure.id));
    }
}

} // namespace

base::Messages bandFaults(const Catalogue& catalogue)
{
    base::Messages faults;
    std::map<QString, std::vector<const Threshold*>> all;
    for (const Threshold& row : catalogue.thresholds) {
        if (row.bandOf.isEmpty())
            continue;
        const Measure* of = catalogue.measure(row.bandOf);
        if (of == nullptr) {
            faults.push_back(
                base::said("%1: unknown measure “%2” to take the band of.").arg(row.id, row.bandOf));
            continue;
        }
        auditEnds(faults, row, *of);
        all[series(row)].push_back(&row);
    }
    for (auto& [key, rows] : all) {
        std::ranges::sort(rows, {}, low);
        const double step = catalogue.measure(rows.front()->bandOf)->step.value_or(0);
        for (size_t index = 1; index < rows.size(); ++index)
            auditNeighbours(faults, rows[index - 1], rows[index], step);
    }
    return faults;
}

} // namespace catalogue
