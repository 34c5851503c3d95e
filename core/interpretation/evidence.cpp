#include "core/interpretation/evidence.h"

#include "core/base/text.h"
#include "core/values/quantity.h"

#include <algorithm>
#include <tuple>

namespace interpretation
{

namespace
{

using catalogue::Threshold;

/// How many steps the wider population lies above the narrower; empty when it does not lie above.
std::optional<int> steps(const catalogue::Catalogue& catalogue, const QString& narrower, const QString& wider)
{
    if (narrower.isEmpty() || !catalogue.isWithin(narrower, wider))
        return std::nullopt;
    int count = 0;
    for (QString at = narrower; at != wider; at = catalogue.population(at)->broader)
        ++count;
    return count;
}

bool fitsBand(const Threshold& row, const std::map<QString, double>& levels)
{
    if (!row.bandLow && !row.bandHigh)
        return true;
    const auto level = levels.find(row.bandOf.isEmpty() ? row.measure : row.bandOf);
    if (level == levels.end())
        return false;
    if (row.bandLow && values::exceeds(*row.bandLow, level->second))
        return false;
    if (!row.bandHigh)
        return true;
    return row.bandHighIncluded ? !values::exceeds(level->second, *row.bandHigh)
                                : values::exceeds(*row.bandHigh, level->second);
}

/// A condition that was not recorded speaks against no row.
bool fitsCondition(const Threshold& row, const records::Conditions& conditions)
{
    const qsizetype sign = row.condition.indexOf(u'=');
    if (sign < 0)
        return true;
    const QString recorded = records::recorded(conditions, row.condition.left(sign));
    return recorded.isEmpty() || base::folded(recorded) == base::folded(row.condition.mid(sign + 1));
}

struct Candidate {
    int steps = 0;
    const Threshold* row = nullptr;

    auto rank() const
    {
        return std::tuple(steps, row->checked == catalogue::Checked::Memory,
                          row->design == catalogue::Design::BetweenRaters, -row->n.value_or(0), row->id);
    }
};

} // namespace

Evidence evidence(const catalogue::Catalogue& catalogue, const QString& measure, catalogue::Answers answers,
                  const Circumstances& circumstances)
{
    std::vector<Candidate> fitting;
    for (const Threshold& row : catalogue.thresholds) {
        if (row.measure != measure || row.answers != answers)
            continue;
        const std::optional<int> distance = steps(catalogue, circumstances.population, row.population);
        const bool fitsHand = row.hand.isEmpty() || row.hand == circumstances.hand;
        if (distance && fitsHand && fitsBand(row, circumstances.levels) &&
            fitsCondition(row, circumstances.conditions))
            fitting.push_back({*distance, &row});
    }
    std::ranges::sort(fitting, {}, &Candidate::rank);
    Evidence found;
    for (const Candidate& candidate : fitting) {
        if (!found.used)
            found.used = *candidate.row;
        else
            found.notUsed.push_back(*candidate.row);
    }
    return found;
}

} // namespace interpretation
