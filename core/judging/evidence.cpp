#include "core/judging/evidence.h"

#include "core/values/quantity.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

namespace judging
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
    return level != levels.end() && isInBand(row, level->second);
}

/// Where the row's condition stands in the rule: recorded and met, for everybody, not recorded. Empty: not
/// met.
std::optional<int> conditionRank(const Threshold& row, const records::Conditions& conditions)
{
    if (!row.condition)
        return 1;
    const QString recorded = records::recorded(conditions, row.condition->condition);
    if (recorded.isEmpty())
        return 2;
    return row.condition->allows(recorded) ? std::optional(0) : std::nullopt;
}

/// How far the visits' gap lies outside the row's interval, as the logarithm of a ratio of days.
double intervalDistance(const Threshold& row, const std::optional<double>& gapDays)
{
    if (!gapDays)
        return 0;
    if (!row.daysLow || !row.daysHigh)
        return HUGE_VAL;
    const double nearest = std::clamp(*gapDays, *row.daysLow, *row.daysHigh);
    return std::abs(std::log((*gapDays + 1) / (nearest + 1)));
}

/// The rule as numbers in the order of WhyNot; the smaller comes first. Empty where the row does not fit.
using Rank = std::array<double, 9>;

std::optional<Rank> rankOf(const Threshold& row, const catalogue::Catalogue& catalogue,
                           const Circumstances& here)
{
    const auto distance = steps(catalogue, here.population, row.population);
    const auto condition = conditionRank(row, here.conditions);
    const bool fitsHand = row.hand.isEmpty() || here.hand.isEmpty() || row.hand == here.hand;
    if (!distance || !condition || !fitsHand || !fitsBand(row, here.levels))
        return std::nullopt;
    return Rank{double(*distance),
                double(row.isOwn),
                double(row.design),
                double(row.repeats != catalogue::Repeats::BetweenDays),
                double(row.checked == catalogue::Checked::Memory),
                double(*condition),
                double(row.hand != here.hand && !row.hand.isEmpty()),
                intervalDistance(row, here.gapDays),
                -double(row.n.value_or(0))};
}

bool isAsChosen(const Threshold& row, const Threshold* chosen)
{
    return chosen != nullptr && row.source == chosen->source && row.population == chosen->population;
}

struct Candidate {
    bool isOther = false; ///< than the one a clinician chose
    bool isSibling = false;
    Rank rank = {};
    const Threshold* row = nullptr;

    auto order() const { return std::tuple(isOther, isSibling, rank, row->id); }
};

} // namespace

bool isInBand(const Threshold& row, double level)
{
    if (row.bandLow && values::exceeds(*row.bandLow, level))
        return false;
    if (!row.bandHigh)
        return true;
    return row.bandHighIncluded ? !values::exceeds(level, *row.bandHigh)
                                : values::exceeds(*row.bandHigh, level);
}

Evidence evidence(const catalogue::Catalogue& catalogue, const QString& measure, catalogue::Answers answers,
                  const Circumstances& circumstances)
{
    const auto wished = std::ranges::find_if(catalogue.thresholds, [&](const Threshold& row) {
        return row.id == circumstances.chosen && row.measure == measure && row.answers == answers;
    });
    const Threshold* chosen = wished == catalogue.thresholds.end() ? nullptr : &*wished;
    std::vector<Candidate> fitting;
    for (const Threshold& row : catalogue.thresholds) {
        if (row.measure != measure || row.answers != answers)
            continue;
        if (const auto rank = rankOf(row, catalogue, circumstances))
            fitting.push_back({!isAsChosen(row, chosen), row.id != circumstances.chosen, *rank, &row});
    }
    std::ranges::sort(fitting, {}, &Candidate::order);
    Evidence found;
    for (const Candidate& candidate : fitting) {
        if (!found.used) {
            found.used = *candidate.row;
            found.isChosen = !candidate.isOther;
        } else {
            found.notUsed.push_back(*candidate.row);
        }
    }
    return found;
}

WhyNot whyNot(const Threshold& row, const Threshold& used, const catalogue::Catalogue& catalogue,
              const Circumstances& circumstances)
{
    const auto theirs = rankOf(row, catalogue, circumstances);
    const auto ours = rankOf(used, catalogue, circumstances);
    if (!theirs || !ours || std::tie(*theirs, row.id) < std::tie(*ours, used.id))
        return WhyNot::ChosenOtherwise;
    const auto differs = std::ranges::mismatch(*theirs, *ours).in1;
    return static_cast<WhyNot>(differs - theirs->begin());
}

} // namespace judging
