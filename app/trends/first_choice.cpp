#include "app/trends/first_choice.h"

#include "core/interpretation/room.h"

#include <algorithm>
#include <cmath>

namespace trends
{

namespace
{

using interpretation::Verdict;

/// How much there is to see: empty for grades and words.
std::optional<double> interest(const interpretation::Change& change, const catalogue::Measure& measure)
{
    if (measure.kind == catalogue::Kind::Grade || measure.kind == catalogue::Kind::Choice)
        return std::nullopt;
    if (!change.baseline)
        return 0.0;
    const interpretation::Comparison& held = *change.baseline;
    if (held.verdict == Verdict::BecameUnable || held.verdict == Verdict::BecameAble)
        return 1e6;
    const auto inLimits = interpretation::inLimits(held, measure.better);
    return inLimits ? 1 + std::abs(*inLimits) : 0.5;
}

} // namespace

QStringList firstChoice(const std::vector<interpretation::Change>& changes,
                        const catalogue::Catalogue& catalogue, qsizetype most)
{
    std::map<QString, double> interests;
    for (const interpretation::Change& change : changes) {
        const catalogue::Measure* measure = catalogue.measure(change.measure);
        const auto found = measure != nullptr ? interest(change, *measure) : std::nullopt;
        if (found)
            interests[change.measure] = std::max(interests[change.measure], *found);
    }
    std::vector<std::pair<double, QString>> ranked;
    ranked.reserve(interests.size());
    for (const auto& [measure, found] : interests)
        ranked.emplace_back(-found, measure);
    std::ranges::stable_sort(ranked);
    QStringList chosen;
    for (const auto& [rank, measure] : ranked) {
        if (chosen.size() < most)
            chosen << measure;
    }
    if (chosen.isEmpty() && !changes.empty())
        chosen << changes.front().measure;
    return chosen;
}

} // namespace trends
