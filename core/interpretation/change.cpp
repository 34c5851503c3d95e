#include "core/interpretation/change.h"

#include <algorithm>

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

Change changeOf(const std::vector<Occasion>& history, const Occasion& now,
                const std::optional<records::VisitId>& reference, const Record& record)
{
    std::vector<const Occasion*> earlier;
    for (const Occasion* occasion = history.data(); occasion != &now; ++occasion) {
        if (counts(*occasion))
            earlier.push_back(occasion);
    }
    Change change{now.finding.measure, now.finding.side, now, {}, {}, {}};
    if (earlier.empty())
        return change;
    const auto comparable = [&](const Occasion* occasion) {
        return isComparable(*occasion, now, record.patient.population, record.catalogue);
    };
    const auto first = std::ranges::find_if(earlier, comparable);
    const auto last = std::find_if(earlier.rbegin(), earlier.rend(), comparable);
    change.baseline = compared(first == earlier.end() ? *earlier.front() : **first, now, record);
    change.previous = compared(last == earlier.rend() ? *earlier.back() : **last, now, record);
    for (const Occasion* occasion : earlier) {
        if (reference && occasion->visit == *reference)
            change.chosen = compared(*occasion, now, record);
    }
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
        const auto now = std::find_if(history.rbegin(), history.rend(), chooses);
        if (now != history.rend())
            all.push_back(changeOf(history, *now, reference, record));
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
    for (const catalogue::Threshold& row : catalogue.thresholds) {
        const catalogue::Measure* measure = catalogue.measure(row.bandOf);
        if (measure == nullptr || levels.contains(row.bandOf))
            continue;
        const auto occasion =
            records::occasionAt(*visit, catalogue, row.bandOf, measure->hasSides ? side : Side::None);
        const auto* level = occasion ? std::get_if<values::Quantity>(&occasion->finding.value) : nullptr;
        if (level != nullptr)
            levels[row.bandOf] = level->number;
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
    const auto found = std::find_if(earlier.rbegin(), earlier.rend(), [&](const Occasion& occasion) {
        return counts(occasion) && occasion.visit != now.visit &&
               isComparable(occasion, now, patient.population, catalogue);
    });
    if (found == earlier.rend())
        return std::nullopt;
    return *found;
}

} // namespace interpretation
