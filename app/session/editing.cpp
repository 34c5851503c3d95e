#include "app/session/session.h"
#include "core/storage/visits.h"

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

base::Result<void> Session::edit(const Edit& edit, Typing typing)
{
    if (edit.before == edit.after)
        return {};
    if (auto applied = apply(edit.visit, edit.measure, edit.side, edit.after); !applied)
        return applied;
    const bool goesOn = typing == Typing::Further && !m_done.empty() && m_done.back().visit == edit.visit &&
                        m_done.back().measure == edit.measure && m_done.back().side == edit.side &&
                        m_done.back().group == 0;
    if (!goesOn)
        m_done.push_back(edit);
    else if (m_done.back().before == edit.after)
        m_done.pop_back();
    else
        m_done.back().after = edit.after;
    m_undone.clear();
    Q_EMIT editsChanged();
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

std::optional<Edit> Session::lastEdit() const
{
    return m_done.empty() ? std::nullopt : std::optional(m_done.back());
}

std::optional<Edit> Session::lastUndone() const
{
    return m_undone.empty() ? std::nullopt : std::optional(m_undone.back());
}

/// Moves the newest edit, and those of its group, from one list to the other; `side` of each becomes what is
/// stored.
base::Result<void> Session::take(std::vector<Edit>& from, std::vector<Edit>& to,
                                 std::optional<records::Finding> Edit::*side)
{
    const int group = from.empty() ? 0 : from.back().group;
    do {
        if (from.empty())
            return {};
        const Edit edit = from.back();
        if (auto applied = apply(edit.visit, edit.measure, edit.side, edit.*side); !applied)
            return applied;
        from.pop_back();
        to.push_back(edit);
        Q_EMIT editsChanged();
    } while (group != 0 && !from.empty() && from.back().group == group);
    return {};
}

base::Result<void> Session::undo()
{
    return take(m_done, m_undone, &Edit::before);
}

base::Result<void> Session::redo()
{
    return take(m_undone, m_done, &Edit::after);
}

} // namespace session
