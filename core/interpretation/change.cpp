#include "core/interpretation/change.h"

#include <algorithm>
#include <ranges>

namespace interpretation
{

namespace
{

using records::Occasion;
using records::Side;
using records::Visit;

bool counts(const Occasion& occasion)
{
    return values::isDone(occasion.finding.value) || values::isUnable(occasion.finding.value);
}

/// One patient's visits and what they are judged with.
struct Record {
    const std::vector<Visit>& visits;
    const records::Patient& patient;
    const catalogue::Catalogue& catalogue;
};

bool isComparable(const Occasion& earlier, const Occasion& now, const QString& population,
                  const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(now.finding.measure);
    return measure != nullptr &&
           comparability(*measure, catalogue, population, earlier.conditions, now.conditions).isComparable();
}

Comparison compared(const Occasion& reference, const Occasion& now, const Record& record)
{
    return comparison(record.catalogue, record.patient, reference, now,
                      levelsAt(reference.visit, now.finding.side, record.visits, record.catalogue));
}

/// The occasions of a history that count and come before the one at `place`.
std::vector<Occasion> before(const std::vector<Occasion>& history, size_t place)
{
    std::vector<Occasion> earlier;
    std::ranges::copy_if(history | std::views::take(place), std::back_inserter(earlier), counts);
    return earlier;
}

Change changeOf(const std::vector<Occasion>& history, size_t place,
                const std::optional<records::VisitId>& reference, const Record& record)
{
    const Occasion& now = history[place];
    const std::vector<Occasion> earlier = before(history, place);
    Change change{now.finding.measure, now.finding.side, now, {}, {}, {}};
    if (earlier.empty())
        return change;
    const auto comparable = [&](const Occasion& occasion) {
        return isComparable(occasion, now, record.patient.population, record.catalogue);
    };
    const auto first = std::ranges::find_if(earlier, comparable);
    const auto last = std::ranges::find_if(earlier | std::views::reverse, comparable);
    change.baseline = compared(first == earlier.end() ? earlier.front() : *first, now, record);
    change.previous = compared(last == earlier.rend() ? earlier.back() : *last, now, record);
    const auto chosen = reference ? std::ranges::find(earlier, *reference, &Occasion::visit) : earlier.end();
    if (chosen != earlier.end())
        change.chosen = compared(*chosen, now, record);
    return change;
}

template <class Chooses>
std::vector<Change> changes(const Record& record, const std::optional<records::VisitId>& reference,
                            Chooses chooses)
{
    std::vector<Change> all;
    for (const auto& [measure, side] : records::recordedPairs(record.visits, record.catalogue)) {
        const std::vector<Occasion> history =
            records::history(record.visits, record.catalogue, measure, side);
        const auto now = std::ranges::find_if(history | std::views::reverse, chooses);
        if (now != history.rend())
            all.push_back(
                changeOf(history, static_cast<size_t>(history.rend() - now) - 1, reference, record));
    }
    return all;
}

} // namespace

std::map<QString, double> levelsAt(const records::VisitId& id, Side side, const std::vector<Visit>& visits,
                                   const catalogue::Catalogue& catalogue)
{
    std::map<QString, double> levels;
    const auto visit = std::ranges::find(visits, id, &Visit::id);
    if (visit == visits.end())
        return levels;
    const std::vector<Visit> alone = {*visit};
    for (const catalogue::Threshold& row : catalogue.thresholds) {
        if (row.bandOf.isEmpty() || levels.contains(row.bandOf))
            continue;
        const catalogue::Measure* measure = catalogue.measure(row.bandOf);
        const Side bandSide = measure != nullptr && measure->hasSides ? side : Side::None;
        for (const Occasion& occasion : records::history(alone, catalogue, row.bandOf, bandSide)) {
            if (const auto* level = std::get_if<values::Quantity>(&occasion.finding.value))
                levels[row.bandOf] = level->number;
        }
    }
    return levels;
}

std::vector<Change> changesAt(const records::VisitId& visit, const std::optional<records::VisitId>& reference,
                              const std::vector<Visit>& visits, const records::Patient& patient,
                              const catalogue::Catalogue& catalogue)
{
    const auto isHere = [&](const Occasion& occasion) { return occasion.visit == visit && counts(occasion); };
    return changes({visits, patient, catalogue}, reference, isHere);
}

std::vector<Change> latestChanges(const std::vector<Visit>& visits, const records::Patient& patient,
                                  const catalogue::Catalogue& catalogue)
{
    return changes({visits, patient, catalogue}, std::nullopt, counts);
}

std::optional<Occasion> lastComparable(const std::vector<Occasion>& earlier, const Occasion& now,
                                       const records::Patient& patient, const catalogue::Catalogue& catalogue)
{
    const auto found = std::ranges::find_if(earlier | std::views::reverse, [&](const Occasion& occasion) {
        return counts(occasion) && occasion.visit != now.visit &&
               isComparable(occasion, now, patient.population, catalogue);
    });
    if (found == earlier.rend())
        return std::nullopt;
    return *found;
}

} // namespace interpretation
