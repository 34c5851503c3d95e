#include "app/visits/recording.h"

#include "core/records/visit_form.h"

namespace visits
{

using records::Finding;
using records::Visit;
using records::VisitId;

const Visit* visitWithId(const session::Session& session, const VisitId& id)
{
    const auto found = std::ranges::find(session.onRecord(), id, &Visit::id);
    return found == session.onRecord().end() ? nullptr : &*found;
}

const Visit* visitBefore(const session::Session& session, const VisitId& id)
{
    const Visit* before = nullptr;
    for (const Visit& visit : session.visits()) {
        if (visit.id == id)
            return before;
        before = &visit;
    }
    return nullptr;
}

base::Result<void> record(session::Session& session, const VisitId& id, const Finding& finding,
                          session::Typing typing)
{
    if (isBlank(finding))
        return session.removeFinding(id, finding.measure, finding.side, typing);
    return session.saveFinding(id, finding, typing);
}

base::Result<void> recordBeside(session::Session& session, const VisitId& id, const Place& place,
                                const std::function<void(Finding&)>& change, session::Typing typing)
{
    const Visit* visit = visitWithId(session, id);
    if (visit == nullptr)
        return {};
    const Finding* there = visit->finding(place.measure, place.side);
    Finding finding = there == nullptr ? withValue(*visit, place, values::Missing{}) : *there;
    change(finding);
    if (there == nullptr ? isBlank(finding) : finding == *there)
        return {};
    return record(session, id, finding, typing);
}

base::Result<void> recordNothing(session::Session& session, const VisitId& id, const Place& place)
{
    const Visit* visit = visitWithId(session, id);
    if (visit == nullptr || visit->finding(place.measure, place.side) == nullptr)
        return {};
    return record(session, id, withValue(*visit, place, values::Missing{}));
}

base::Result<void> recordException(session::Session& session, const VisitId& id, const QString& measure,
                                   const QString& condition, const QString& value)
{
    const catalogue::Measure* test = session.catalogue().measure(measure);
    for (const records::Side side : test == nullptr ? std::vector<records::Side>() : sidesOf(*test)) {
        auto recorded = recordBeside(session, id, {measure, side}, [&](Finding& finding) {
            if (value.isEmpty())
                finding.exceptions.remove(condition);
            else
                finding.exceptions[condition] = value;
        });
        if (!recorded)
            return recorded;
    }
    return {};
}

base::Result<void> recordCondition(session::Session& session, const VisitId& id, const QString& condition,
                                   const QString& value)
{
    const Visit* visit = visitWithId(session, id);
    if (visit == nullptr)
        return {};
    records::Conditions conditions = visit->conditions;
    if (value.isEmpty())
        conditions.remove(condition);
    else
        conditions[condition] = value;
    const bool isCarried = !visit->conditions.empty() && visitBefore(session, id) != nullptr;
    return session.saveConditions(id, conditions, visit->conditionsConfirmed || !isCarried);
}

} // namespace visits
