#include "app/visits/recording.h"

#include "core/records/check.h"

namespace visits
{

using records::Finding;

base::Result<void> record(session::Session& session, const Finding& finding, session::Typing typing)
{
    const records::Visit* visit = session.visitInFocus();
    if (visit == nullptr)
        return base::Error{base::ErrorKind::NotFound, session::Session::tr("No visit is open."), {}};
    if (isBlank(finding))
        return session.removeFinding(visit->id, finding.measure, finding.side, typing);
    if (const auto wrong = records::wrongWith(finding, session.catalogue()))
        return *wrong;
    return session.saveFinding(visit->id, finding, typing);
}

base::Result<void> recordBeside(session::Session& session, const Place& place,
                                const std::function<void(Finding&)>& change)
{
    const records::Visit* visit = session.visitInFocus();
    if (visit == nullptr)
        return {};
    const Finding* there = visit->finding(place.measure, place.side);
    Finding finding = there == nullptr ? withValue(*visit, place, values::Missing{}) : *there;
    change(finding);
    if (there == nullptr ? isBlank(finding) : finding == *there)
        return {};
    return record(session, finding);
}

base::Result<void> recordNothing(session::Session& session, const Place& place)
{
    const records::Visit* visit = session.visitInFocus();
    if (visit == nullptr || visit->finding(place.measure, place.side) == nullptr)
        return {};
    return record(session, withValue(*visit, place, values::Missing{}));
}

base::Result<void> recordException(session::Session& session, const QString& measure,
                                   const QString& condition, const QString& value)
{
    const catalogue::Measure* test = session.catalogue().measure(measure);
    for (const records::Side side : test == nullptr ? std::vector<records::Side>() : sidesOf(*test)) {
        auto recorded = recordBeside(session, {measure, side}, [&](Finding& finding) {
            if (value.isEmpty())
                finding.exceptions.erase(condition);
            else
                finding.exceptions[condition] = value;
        });
        if (!recorded)
            return recorded;
    }
    return {};
}

base::Result<void> recordCondition(session::Session& session, const QString& condition, const QString& value)
{
    const records::Visit* visit = session.visitInFocus();
    if (visit == nullptr)
        return {};
    records::Conditions conditions = visit->conditions;
    if (value.isEmpty())
        conditions.erase(condition);
    else
        conditions[condition] = value;
    const bool isCarried = !visit->conditions.empty() && visitBefore(session) != nullptr;
    return session.saveConditions(visit->id, conditions, visit->conditionsConfirmed || !isCarried);
}

const records::Visit* visitBefore(const session::Session& session)
{
    const records::Visit* here = session.visitInFocus();
    const records::Visit* before = nullptr;
    for (const records::Visit& visit : session.visits()) {
        if (here == nullptr || visit.id == here->id)
            break;
        before = &visit;
    }
    return before;
}

} // namespace visits
