#include "app/session/session.h"
#include "core/records/check.h"
#include "core/storage/visits.h"

#include <algorithm>

namespace session
{

namespace
{

std::optional<records::Finding> findingIn(const std::vector<records::Visit>& visits,
                                          const records::VisitId& id, const QString& measure,
                                          records::Side side)
{
    for (const records::Visit& visit : visits) {
        const records::Finding* found = visit.id == id ? visit.finding(measure, side) : nullptr;
        if (found != nullptr)
            return *found;
    }
    return std::nullopt;
}

} // namespace

base::Result<void> Session::apply(const records::VisitId& visit, const QString& measure, records::Side side,
                                  const std::optional<records::Finding>& finding)
{
    storage::Visits visits(*m_store);
    if (finding) {
        if (auto allowed = refuseWrong(visit, *finding); !allowed)
            return allowed;
    }
    auto saved = finding ? visits.saveFinding(visit, *finding) : visits.removeFinding(visit, measure, side);
    if (!saved)
        return saved;
    for (auto* list : {&m_versions, &m_visits, &m_onRecord}) {
        for (records::Visit& kept : *list) {
            if (kept.id != visit)
                continue;
            std::erase_if(kept.findings, [&](const records::Finding& old) {
                return old.measure == measure && old.side == side;
            });
            if (finding)
                kept.findings.push_back(*finding);
        }
    }
    Q_EMIT visitChanged(visit);
    return {};
}

base::Result<void> Session::applyConditions(const records::VisitId& visit, const VisitConditions& conditions)
{
    if (const auto wrong = records::wrongWith(conditions.values, m_catalogue))
        return *wrong;
    if (auto saved =
            storage::Visits(*m_store).saveConditions(visit, conditions.values, conditions.areConfirmed);
        !saved)
        return saved;
    for (auto* list : {&m_versions, &m_visits, &m_onRecord}) {
        for (records::Visit& kept : *list) {
            if (kept.id == visit) {
                kept.conditions = conditions.values;
                kept.conditionsConfirmed = conditions.areConfirmed;
            }
        }
    }
    Q_EMIT visitChanged(visit);
    return {};
}

base::Result<void> Session::refuseWrong(const records::VisitId& id, const records::Finding& finding) const
{
    const auto known = std::ranges::find(m_versions, id, &records::Visit::id);
    const auto stored = known != m_versions.end() ? base::Result<records::Visit>(*known)
                                                  : storage::Visits(*m_store).withId(id);
    if (!stored)
        return stored.error();
    if (const auto wrong = records::wrongWith(*stored, finding, m_catalogue))
        return *wrong;
    return {};
}

namespace
{

/// Whether an edit is of the same finding, or of the conditions as the other one is.
bool isOfSame(const Edit& a, const Edit& b)
{
    return a.visit == b.visit && a.measure == b.measure && a.side == b.side &&
           a.conditionsAfter.has_value() == b.conditionsAfter.has_value();
}

} // namespace

void Session::remember(const Edit& edit, Typing typing)
{
    const bool goesOn = typing == Typing::Further && !m_done.empty() && isOfSame(m_done.back(), edit) &&
                        m_done.back().group == 0;
    if (!goesOn) {
        m_done.push_back(edit);
    } else if (m_done.back().before == edit.after && m_done.back().conditionsBefore == edit.conditionsAfter) {
        m_done.pop_back();
    } else {
        m_done.back().after = edit.after;
        m_done.back().conditionsAfter = edit.conditionsAfter;
    }
    m_undone.clear();
    Q_EMIT editsChanged();
}

base::Result<void> Session::edit(const Edit& edit, Typing typing)
{
    if (edit.before == edit.after)
        return {};
    if (auto applied = apply(edit.visit, edit.measure, edit.side, edit.after); !applied)
        return applied;
    remember(edit, typing);
    return {};
}

base::Result<void> Session::saveConditions(const records::VisitId& visit,
                                           const records::Conditions& conditions, bool confirmed,
                                           Typing typing)
{
    const auto kept = std::ranges::find(m_visits, visit, &records::Visit::id);
    const VisitConditions after{conditions, confirmed};
    std::optional<VisitConditions> before;
    if (kept != m_visits.end())
        before = VisitConditions{kept->conditions, kept->conditionsConfirmed};
    if (before == after)
        return {};
    if (auto applied = applyConditions(visit, after); !applied)
        return applied;
    if (before)
        remember({visit, {}, {}, {}, {}, 0, before, after}, typing);
    return {};
}

base::Result<void> Session::saveFinding(const records::VisitId& visit, const records::Finding& finding,
                                        Typing typing)
{
    return edit({visit, finding.measure, finding.side,
                 findingIn(m_visits, visit, finding.measure, finding.side), finding},
                typing);
}

base::Result<void> Session::saveFindings(const records::VisitId& visit,
                                         const std::vector<records::Finding>& findings)
{
    ++m_groups;
    for (const records::Finding& finding : findings) {
        const auto before = findingIn(m_visits, visit, finding.measure, finding.side);
        if (auto saved =
                edit({visit, finding.measure, finding.side, before, finding, m_groups}, Typing::Anew);
            !saved)
            return saved;
    }
    return {};
}

base::Result<void> Session::removeFinding(const records::VisitId& visit, const QString& measure,
                                          records::Side side, Typing typing)
{
    return edit({visit, measure, side, findingIn(m_visits, visit, measure, side), std::nullopt}, typing);
}

namespace
{

/// The newest edit, and those of its group before it, in the order they were made.
std::vector<Edit> newestOf(const std::vector<Edit>& edits)
{
    if (edits.empty())
        return {};
    auto first = edits.end() - 1;
    while (first->group != 0 && first != edits.begin() && (first - 1)->group == first->group)
        --first;
    return {first, edits.end()};
}

} // namespace

std::vector<Edit> Session::lastEdits() const
{
    return newestOf(m_done);
}

std::vector<Edit> Session::lastUndone() const
{
    std::vector<Edit> undone = newestOf(m_undone);
    std::ranges::reverse(undone);
    return undone;
}

/// Moves the newest edits from one list to the other; that side of each becomes what is stored.
base::Result<void> Session::take(std::vector<Edit>& from, std::vector<Edit>& to, Side side)
{
    for (size_t left = newestOf(from).size(); left > 0; --left) {
        const Edit edit = from.back();
        const auto& conditions = side == Side::Before ? edit.conditionsBefore : edit.conditionsAfter;
        const auto& finding = side == Side::Before ? edit.before : edit.after;
        auto applied = conditions ? applyConditions(edit.visit, *conditions)
                                  : apply(edit.visit, edit.measure, edit.side, finding);
        if (!applied)
            return applied;
        from.pop_back();
        to.push_back(edit);
        Q_EMIT editsChanged();
    }
    return {};
}

base::Result<void> Session::undo()
{
    return take(m_done, m_undone, Side::Before);
}

base::Result<void> Session::redo()
{
    return take(m_undone, m_done, Side::After);
}

} // namespace session
