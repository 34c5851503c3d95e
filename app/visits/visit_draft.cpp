#include "app/visits/visit_draft.h"

#include "core/catalogue/catalogue.h"
#include "core/records/following.h"
#include "core/records/history.h"
#include "core/records/visit_form.h"

#include <QScopeGuard>

#include <algorithm>
#include <utility>

namespace visits
{

using records::Finding;
using records::Visit;

void VisitDraft::open(const std::optional<records::VisitId>& id)
{
    if (m_id == id)
        return;
    m_id = id;
    m_awaited.clear();
    m_notes.clear();
    m_followed.clear();
}

const Visit* VisitDraft::visit() const
{
    const auto& all = m_session.onRecord();
    const auto found = std::ranges::find_if(all, [&](const Visit& visit) { return visit.id == m_id; });
    return found == all.end() ? nullptr : &*found;
}

const Visit* VisitDraft::visitBefore() const
{
    const Visit* before = nullptr;
    for (const Visit& visit : m_session.visits()) {
        if (visit.id == m_id)
            return before;
        before = &visit;
    }
    return nullptr;
}

bool VisitDraft::isReadOnly() const
{
    const Visit* shown = visit();
    return shown == nullptr || shown->state != records::VisitState::Draft;
}

const Finding* VisitDraft::stored(const Place& place) const
{
    const Visit* shown = visit();
    return shown == nullptr ? nullptr : shown->finding(place.measure, place.side);
}

base::Result<void> VisitDraft::enter(const Place& place, const Entry& entry)
{
    if (isReadOnly())
        return {};
    Finding finding = withValue(*visit(), place, entry.value);
    finding.trials = entry.trials;
    finding.trialNumbers = entry.trialNumbers;
    finding.taps = entry.taps;
    finding.capReached = entry.capReached;
    m_awaited.erase(place);
    return store(finding, entry.typing);
}

base::Result<void> VisitDraft::clear(const Place& place)
{
    if (isReadOnly())
        return {};
    m_awaited.erase(place);
    return stored(place) == nullptr
               ? base::Result<void>()
               : store(withValue(*visit(), place, values::Missing{}), session::Typing::Anew);
}

base::Result<void> VisitDraft::takeBack(const Place& place, const std::optional<Finding>& before)
{
    if (isReadOnly())
        return {};
    return store(before ? *before : withValue(*visit(), place, values::Missing{}), session::Typing::Further);
}

base::Result<void> VisitDraft::giveReason(const Place& place, const QString& reason, session::Typing typing)
{
    const Finding* there = stored(place);
    if (there == nullptr || !std::holds_alternative<values::Missing>(there->value))
        return {};
    return change(
        place, [&](Finding& finding) { std::get<values::Missing>(finding.value).reason = reason; }, typing);
}

base::Result<void> VisitDraft::giveNote(const Place& place, const QString& note, session::Typing typing)
{
    if (const auto held = m_notes.find(place); held != m_notes.end())
        held->second = note;
    auto done = change(
        place, [&](Finding& finding) { finding.note = note; }, typing);
    if (done)
        m_notes.erase(place);
    else
        m_notes[place] = note;
    return done;
}

base::Result<void> VisitDraft::giveSigns(const Place& place, const QStringList& signs)
{
    return change(place, [&](Finding& finding) { finding.signs = signs; });
}

base::Result<void> VisitDraft::giveException(const QString& measure, const QString& condition,
                                             const QString& value)
{
    const catalogue::Measure* test = m_session.catalogue().measure(measure);
    for (const records::Side side :
         test == nullptr ? std::vector<records::Side>() : records::sidesOf(*test)) {
        auto done = change({measure, side}, [&](Finding& finding) {
            if (value.isEmpty())
                finding.exceptions.remove(condition);
            else
                finding.exceptions[condition] = value;
        });
        if (!done)
            return done;
    }
    return {};
}

base::Result<void> VisitDraft::giveConditions(const records::Conditions& values)
{
    const Visit* shown = visit();
    if (isReadOnly())
        return {};
    records::Conditions conditions = shown->conditions;
    for (const auto& [condition, value] : values.asKeyValueRange()) {
        if (value.isEmpty())
            conditions.remove(condition);
        else
            conditions[condition] = value;
    }
    const bool isCarried = !shown->conditions.empty() && visitBefore() != nullptr;
    return m_session.saveConditions(shown->id, conditions, shown->conditionsConfirmed || !isCarried);
}

base::Result<void> VisitDraft::confirmConditions()
{
    const Visit* shown = visit();
    if (isReadOnly() || shown->conditionsConfirmed)
        return {};
    return m_session.saveConditions(shown->id, shown->conditions, true);
}

base::Result<void> VisitDraft::sayWhatFollows(const QString& measure)
{
    for (const catalogue::Measure& choice : m_session.catalogue().measures) {
        if (isReadOnly() || !choice.following || choice.following->hold != measure)
            continue;
        const Place place{choice.id, records::Side::None};
        const auto follows = records::followingChoice(choice, *visit());
        const Finding* there = stored(place);
        base::Result<void> done;
        if (follows && !isAnswered(there)) {
            m_followed.insert(place);
            done = m_session.saveFinding(*m_id, withValue(*visit(), place, *follows));
        } else if (!follows && m_followed.erase(place) > 0 && there != nullptr &&
                   there->value == values::Value(values::Choice{choice.following->choice})) {
            done = change(place, [](Finding& finding) { finding.value = values::Missing{}; });
        }
        if (!done)
            return done;
    }
    return {};
}

std::optional<values::Absence> VisitDraft::awaited(const Place& place) const
{
    const auto found = m_awaited.find(place);
    return found == m_awaited.end() ? std::nullopt : std::optional(found->second);
}

void VisitDraft::holdTexts(const Place& place, const QStringList& texts)
{
    if (m_id && !texts.isEmpty())
        m_texts[*m_id][place] = texts;
}

std::map<Place, QStringList> VisitDraft::takeHeldTexts()
{
    return m_id ? std::exchange(m_texts[*m_id], {}) : std::map<Place, QStringList>();
}

/// Once it is checked; a blank one is taken out of the records instead.
base::Result<void> VisitDraft::store(const Finding& finding, session::Typing typing)
{
    m_storing = Place{finding.measure, finding.side};
    const auto done = qScopeGuard([this] { m_storing.reset(); });
    return isBlank(finding) ? m_session.removeFinding(*m_id, finding.measure, finding.side, typing)
                            : m_session.saveFinding(*m_id, finding, typing);
}

/// Changes what stands beside a value; the value stays as it is.
base::Result<void> VisitDraft::change(const Place& place, const std::function<void(Finding&)>& change,
                                      session::Typing typing)
{
    if (isReadOnly())
        return {};
    const Finding* there = stored(place);
    Finding finding = there == nullptr ? withValue(*visit(), place, values::Missing{}) : *there;
    change(finding);
    if (there == nullptr ? isBlank(finding) : finding == *there)
        return {};
    return isBlank(finding) ? m_session.removeFinding(*m_id, place.measure, place.side, typing)
                            : m_session.saveFinding(*m_id, finding, typing);
}

} // namespace visits
