#include "app/visits/earlier.h"

#include "core/records/declared.h"

namespace visits
{

using records::Occasion;

std::optional<Earlier> earlierValue(const Place& place, const records::Visit& visit,
                                    const std::optional<records::VisitId>& reference,
                                    const std::vector<records::Visit>& visits,
                                    const records::Patient& patient, const catalogue::Catalogue& catalogue)
{
    std::vector<Occasion> earlier = records::history(visits, catalogue, place.measure, place.side);
    const auto isHere = [&](const Occasion& occasion) { return occasion.visit == visit.id; };
    earlier.erase(
        std::ranges::find_if(
            earlier, [&](const Occasion& occasion) { return isHere(occasion) || occasion.day > visit.day; }),
        earlier.end());
    std::erase_if(earlier, [](const Occasion& occasion) { return !isAnswered(&occasion.finding); });
    if (reference) {
        std::erase_if(earlier, [&](const Occasion& occasion) { return occasion.visit != *reference; });
        if (earlier.empty())
            return std::nullopt;
    }
    if (earlier.empty())
        return std::nullopt;

    Occasion now;
    now.visit = visit.id;
    now.series = visit.series;
    now.day = visit.day;
    now.state = visit.state;
    now.conditions = visit.conditions;
    if (const records::Finding* finding = visit.finding(place.measure, place.side)) {
        now.finding = *finding;
        now.conditions = records::withExceptions(visit.conditions, finding->exceptions);
    } else {
        now.finding.measure = place.measure;
        now.finding.side = place.side;
    }
    if (const catalogue::Measure* measure = catalogue.measure(place.measure)) {
        earlier.push_back(now); // so that what was declared equal to this visit counts
        records::layDeclared(earlier, *measure, patient.declared);
        now = earlier.back();
        earlier.pop_back();
    }
    if (const auto comparable = judging::lastComparable(earlier, now, patient, catalogue))
        return Earlier{*comparable, true};
    return Earlier{earlier.back(), false};
}

std::optional<Occasion> computedValue(const Place& place, const records::Visit& visit,
                                      const catalogue::Catalogue& catalogue)
{
    auto here = records::occasionAt(visit, catalogue, place.measure, place.side);
    return here && here->computedFrom.isEmpty() ? std::nullopt : here;
}

const judging::Comparison* meaning(const judging::Change& change,
                                   const std::optional<records::VisitId>& reference)
{
    const auto& comparison = reference ? change.chosen : change.previous;
    return comparison ? &*comparison : nullptr;
}

} // namespace visits
