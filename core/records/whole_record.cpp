#include "core/records/whole_record.h"

#include <algorithm>
#include <set>

namespace records
{

namespace
{

bool touches(QDate first, QDate last, const Extent& extent)
{
    return (!extent.from || last >= *extent.from) && (!extent.until || first <= *extent.until);
}

bool isMeant(const QString& measure, const Extent& extent)
{
    return extent.measures.isEmpty() || extent.measures.contains(measure);
}

/// The series of the visits that stay.
std::set<VisitId> keepVisits(std::vector<Visit>& visits, const Extent& extent)
{
    std::set<VisitId> kept;
    for (Visit& visit : visits) {
        std::erase_if(visit.findings,
                      [&](const Finding& finding) { return !isMeant(finding.measure, extent); });
        const bool isOfMeasure = extent.measures.isEmpty() || !visit.findings.empty();
        if (isOfMeasure && touches(visit.day, visit.day, extent))
            kept.insert(visit.series);
    }
    std::erase_if(visits, [&](const Visit& visit) { return !kept.contains(visit.series); });
    return kept;
}

void keepHappenings(std::vector<Happening>& happenings, const Extent& extent)
{
    std::set<HappeningId> kept;
    for (const Happening& happening : happenings) {
        if (touches(happening.from, happening.until.value_or(happening.from), extent))
            kept.insert(happening.id);
    }
    std::erase_if(happenings, [&](const Happening& happening) { return !kept.contains(happening.id); });
}

} // namespace

std::optional<WholeRecord> within(WholeRecord record, const Extent& extent)
{
    const std::set<VisitId> visits = keepVisits(record.visits, extent);
    keepHappenings(record.happenings, extent);
    std::erase_if(record.asked, [&](const Asked& asked) { return !visits.contains(asked.visit); });
    std::erase_if(record.targets, [&](const Target& target) {
        return !isMeant(target.measure, extent) || !touches(target.agreedOn, target.agreedOn, extent);
    });
    std::erase_if(record.patient.choices,
                  [&](const EvidenceChoice& choice) { return !isMeant(choice.measure, extent); });
    std::erase_if(record.patient.declared, [&](const DeclaredEqual& word) {
        return !isMeant(word.measure, extent) || !visits.contains(word.earlier) ||
               !visits.contains(word.later);
    });
    const bool isAll = !extent.isOfDays() && extent.measures.isEmpty();
    const bool isSomething = !record.visits.empty() || !record.targets.empty() ||
                             (extent.measures.isEmpty() && !record.happenings.empty());
    return isAll || isSomething ? std::optional(std::move(record)) : std::nullopt;
}

} // namespace records
