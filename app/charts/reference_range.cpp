#include "app/charts/reference_range.h"

#include "core/judging/standing.h"
#include "core/records/wording.h"
#include "core/telling/reference_words.h"

#include <algorithm>

namespace charts
{

namespace
{

std::optional<TrendRange> rangeOf(const catalogue::Norm& norm)
{
    if (norm.rangeLow && norm.rangeHigh)
        return TrendRange{*norm.rangeLow, *norm.rangeHigh, {}};
    if (norm.mean && norm.sd)
        return TrendRange{*norm.mean - 2 * *norm.sd, *norm.mean + 2 * *norm.sd, {}};
    return std::nullopt;
}

QString withUnit(double number, const catalogue::Measure& measure, const base::Phrasebook& phrases)
{
    return values::withUnit(records::written(number, measure), measure.unit, phrases);
}

} // namespace

std::optional<TrendRange> referenceRange(const records::Occasion& occasion, const records::Patient& patient,
                                         const catalogue::Catalogue& catalogue,
                                         const base::Phrasebook& phrases)
{
    const catalogue::Measure* measure = catalogue.measure(occasion.finding.measure);
    const catalogue::Norm* best = nullptr;
    const auto found = judging::standings(occasion, patient, catalogue);
    for (const judging::Standing& standing : found) {
        const auto* answer = std::get_if<judging::AgainstNorm>(&standing.answer);
        const bool isBetter = answer != nullptr && rangeOf(answer->norm) &&
                              (best == nullptr || answer->norm.origin.checked < best->origin.checked);
        if (isBetter)
            best = &answer->norm;
    }
    if (measure == nullptr || best == nullptr)
        return std::nullopt;
    TrendRange range = *rangeOf(*best);
    range.low = std::max(range.low, measure->lowest.value_or(range.low));
    range.high = std::min(range.high, measure->highest.value_or(range.high));
    const QString what = best->rangeLow && best->rangeHigh ? best->rangeWords : phrases("mean ± 2 SD");
    range.words = phrases("Reference range, lightly shaded: %1 to %2, %3 of %4 (%5).")
                      .arg(withUnit(range.low, *measure, phrases), withUnit(range.high, *measure, phrases),
                           what, telling::written(best->whom, phrases),
                           telling::sourceWords(best->whom, best->origin, catalogue, phrases));
    return range;
}

} // namespace charts
