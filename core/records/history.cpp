#include "core/records/history.h"

#include "core/records/declared.h"
#include "core/records/derived.h"

#include <QHash>

#include <algorithm>

namespace records
{

namespace
{

std::vector<Side> sidesOf(const catalogue::Measure& measure)
{
    return measure.hasSides ? std::vector{Side::Right, Side::Left} : std::vector{Side::None};
}

/// A total that lacks a part is not.
bool isRecorded(const Occasion& occasion)
{
    return occasion.computedFrom.isEmpty() || isAnswered(occasion.finding);
}

} // namespace

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

std::vector<History> histories(const std::vector<Visit>& visits, const catalogue::Catalogue& catalogue,
                               const std::vector<DeclaredEqual>& declared)
{
    std::vector<History> all;
    QHash<QString, size_t> firstOf; // of a measure's histories
    for (const catalogue::Measure& measure : catalogue.measures) {
        firstOf.insert(measure.id, all.size());
        for (const Side side : sidesOf(measure))
            all.push_back({measure.id, side, {}});
    }
    for (const Visit& visit : visits) {
        for (const Finding& finding : visit.findings) {
            const size_t place =
                firstOf.value(finding.measure, all.size()) + (finding.side == Side::Left ? 1 : 0);
            if (place < all.size() && all[place].measure == finding.measure &&
                all[place].side == finding.side)
                all[place].occasions.push_back(occasionOf(visit, finding));
        }
    }
    for (const catalogue::Measure& measure : catalogue.measures) {
        History& found = all[firstOf.value(measure.id)];
        if (measure.computed)
            found.occasions = history(visits, catalogue, measure.id, Side::None);
    }
    std::erase_if(all,
                  [](const History& found) { return std::ranges::none_of(found.occasions, isRecorded); });
    for (History& found : all) {
        std::ranges::stable_sort(found.occasions, {}, &Occasion::day);
        layDeclared(found.occasions, *catalogue.measure(found.measure), declared);
    }
    return all;
}

std::vector<std::pair<QString, Side>> recordedPairs(const std::vector<Visit>& visits,
                                                    const catalogue::Catalogue& catalogue)
{
    std::vector<std::pair<QString, Side>> pairs;
    for (const History& found : histories(visits, catalogue))
        pairs.emplace_back(found.measure, found.side);
    return pairs;
}

} // namespace records
