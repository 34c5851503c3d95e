#include "app/trends/first_choice.h"

#include "core/judging/room.h"

#include <algorithm>
#include <cmath>

namespace trends
{

namespace
{

using judging::Verdict;

/// How much there is to see: empty for grades and words.
std::optional<double> interest(const judging::Change& change, const catalogue::Measure& measure)
{
    if (!catalogue::isNumeric(measure.kind))
        return std::nullopt;
    if (!change.baseline)
        return 0.0;
    const judging::Comparison& held = *change.baseline;
    if (held.verdict == Verdict::BecameUnable || held.verdict == Verdict::BecameAble)
        return 1e6;
    const auto inLimits = judging::inLimits(held, measure.better);
    return inLimits ? 1 + std::abs(*inLimits) : 0.5;
}

} // namespace

QStringList firstChoice(const std::vector<judging::Change>& changes, const catalogue::Catalogue& catalogue,
                        qsizetype most)
{
    std::map<QString, double> interests;
    for (const judging::Change& change : changes) {
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
