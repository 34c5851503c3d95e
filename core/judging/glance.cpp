#include "core/judging/glance.h"

#include "core/records/history.h"
#include "core/records/visit.h"
#include "core/records/visit_form.h"

#include <algorithm>

namespace judging
{

namespace
{

std::vector<Lacking> lackingBetween(const records::Visit& before, const records::Visit& now,
                                    const catalogue::Catalogue& catalogue)
{
    std::vector<Lacking> lacking;
    const catalogue::Form* form = records::formOf(now, catalogue);
    const QStringList asked = form != nullptr ? form->measures() : QStringList();
    const auto hasResult = [](const auto& found) {
        return found && (values::isDone(found->finding.value) || values::isUnable(found->finding.value));
    };
    for (const QString& id : asked) {
        const catalogue::Measure* measure = catalogue.measure(id);
        if (measure == nullptr || measure->computed || !measure->partOf.isEmpty())
            continue;
        for (const auto side : records::sidesOf(*measure)) {
            const auto found = records::occasionAt(now, catalogue, id, side);
            if (!hasResult(records::occasionAt(before, catalogue, id, side)) || hasResult(found))
                continue;
            Lacking each{id, side, {}};
            if (found)
                each.why = std::get<values::Missing>(found->finding.value);
            lacking.push_back(std::move(each));
        }
    }
    return lacking;
}

} // namespace

bool Glance::hasEarlier() const
{
    return std::ranges::any_of(changes, [](const Change& each) { return each.previous.has_value(); });
}

std::optional<Glance> glanceAt(const records::VisitId& visit,
                               const std::optional<records::VisitId>& reference, const Ground& ground)
{
    const auto now = std::ranges::find(ground.visits, visit, &records::Visit::id);
    if (now == ground.visits.end())
        return std::nullopt;
    Glance glance;
    glance.visit = visit;
    glance.day = now->day;
    glance.changes =
        changesAt(visit, reference, ground.visits, ground.patient, ground.catalogue, ground.judging);
    glance.outcomes = outcomesOf(glance.changes, ground.catalogue);
    glance.order = byWeight(glance.outcomes);
    if (now != ground.visits.begin())
        glance.lacking = lackingBetween(*std::prev(now), *now, ground.catalogue);
    return glance;
}

} // namespace judging
