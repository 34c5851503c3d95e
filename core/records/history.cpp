#include "core/records/history.h"

#include "core/records/declared.h"
#include "core/records/derived.h"
#include "core/records/visit.h"

#include <QHash>

#include <algorithm>

namespace records
{

namespace
{

/// A total that lacks a part is not.
bool isRecorded(const Occasion& occasion)
{
    return occasion.computedFrom.isEmpty() || isAnswered(occasion.finding);
}

std::vector<Occasion> occasionsOf(const std::vector<Visit>& visits, const catalogue::Catalogue& catalogue,
                                  const QString& measure, Side side)
{
    std::vector<Occasion> occasions;
    for (const Visit& visit : visits) {
        if (auto found = occasionAt(visit, catalogue, measure, side))
            occasions.push_back(std::move(*found));
    }
    return occasions;
}

void arrange(std::vector<Occasion>& occasions, const catalogue::Measure& measure,
             const std::vector<DeclaredEqual>& declared)
{
    if (!std::ranges::is_sorted(occasions, {}, &Occasion::day))
        std::ranges::stable_sort(occasions, {}, &Occasion::day);
    layDeclared(occasions, measure, declared);
}

/// Where the findings of each measure lie, so that a measure need not be searched for at every visit.
class FindingsByMeasure
{
public:
    explicit FindingsByMeasure(const std::vector<Visit>& visits)
    {
        for (const Visit& visit : visits) {
            for (const Finding& finding : visit.findings)
                m_places[finding.measure].push_back({&visit, &finding});
        }
    }

    std::vector<Occasion> occasions(const QString& measure, Side side) const
    {
        std::vector<Occasion> occasions;
        const auto places = m_places.constFind(measure);
        if (places == m_places.cend())
            return occasions;
        occasions.reserve(places->size());
        for (const Place& place : *places) {
            if (place.finding->side == side)
                occasions.push_back(occasionOf(*place.visit, *place.finding));
        }
        return occasions;
    }

private:
    struct Place {
        const Visit* visit = nullptr;
        const Finding* finding = nullptr;
    };

    QHash<QString, std::vector<Place>> m_places;
};

} // namespace

std::vector<Side> sidesOf(const catalogue::Measure& measure)
{
    return measure.hasSides ? std::vector{Side::Right, Side::Left} : std::vector{Side::None};
}

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
    const catalogue::Measure* measure = catalogue.measure(id);
    if (measure == nullptr)
        return {};
    std::vector<Occasion> occasions = occasionsOf(visits, catalogue, id, side);
    arrange(occasions, *measure, declared);
    return occasions;
}

void eachHistory(const std::vector<Visit>& visits, const catalogue::Catalogue& catalogue,
                 const std::vector<DeclaredEqual>& declared, const std::function<void(const History&)>& take)
{
    const FindingsByMeasure entered(visits);
    for (const catalogue::Measure& measure : catalogue.measures) {
        for (const Side side : sidesOf(measure)) {
            History found{measure.id, side, {}};
            if (measure.computed)
                found.occasions = occasionsOf(visits, catalogue, measure.id, side);
            else
                found.occasions = entered.occasions(measure.id, side);
            if (std::ranges::none_of(found.occasions, isRecorded))
                continue;
            arrange(found.occasions, measure, declared);
            take(found);
        }
    }
}

std::vector<std::pair<QString, Side>> recordedPairs(const std::vector<Visit>& visits,
                                                    const catalogue::Catalogue& catalogue)
{
    std::vector<std::pair<QString, Side>> pairs;
    eachHistory(visits, catalogue, {},
                [&](const History& found) { pairs.emplace_back(found.measure, found.side); });
    return pairs;
}

} // namespace records
