#include "core/records/history.h"

#include "core/records/declared.h"
#include "core/records/derived.h"

#include <algorithm>

namespace records
{

std::optional<Occasion> occasionAt(const Visit& visit, const catalogue::Catalogue& catalogue,
                                   const QString& id, Side side)
{
    const Finding* entered = visit.finding(id, side);
    const catalogue::Measure* measure = catalogue.measure(id);
    if (measure != nullptr && side == Side::None && (entered == nullptr || !isAnswered(*entered))) {
        if (auto computed = derived(visit, *measure, catalogue))
            return computed;
    }
    if (entered == nullptr)
        return std::nullopt;
    return occasionOf(visit, *entered);
}

std::vector<Occasion> history(const std::vector<Visit>& visits, const catalogue::Catalogue& catalogue,
                              const QString& id, Side side, const std::vector<DeclaredEqual>& declared)
{
    std::vector<Occasion> occasions;
    const catalogue::Measure* measure = catalogue.measure(id);
    if (measure == nullptr)
        return occasions;
    for (const Visit& visit : visits) {
        if (auto found = occasionAt(visit, catalogue, id, side))
            occasions.push_back(std::move(*found));
    }
    std::ranges::stable_sort(occasions, {}, &Occasion::day);
    layDeclared(occasions, *measure, declared);
    return occasions;
}

std::vector<std::pair<QString, Side>> recordedPairs(const std::vector<Visit>& visits,
                                                    const catalogue::Catalogue& catalogue)
{
    std::vector<std::pair<QString, Side>> pairs;
    for (const catalogue::Measure& measure : catalogue.measures) {
        const std::vector<Side> sides =
            measure.hasSides ? std::vector{Side::Right, Side::Left} : std::vector{Side::None};
        for (const Side side : sides) {
            const bool isRecorded = std::ranges::any_of(visits, [&](const Visit& visit) {
                const auto occasion = occasionAt(visit, catalogue, measure.id, side);
                return occasion && (occasion->computedFrom.isEmpty() || isAnswered(occasion->finding));
            });
            if (isRecorded)
                pairs.emplace_back(measure.id, side);
        }
    }
    return pairs;
}

} // namespace records
