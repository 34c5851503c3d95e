#include "app/session/undo.h"

#include <algorithm>

namespace session
{

namespace
{

/// Whether an edit is of the same finding, or of the conditions as the other one is.
bool isOfSame(const Edit& a, const Edit& b)
{
    return a.visit == b.visit && a.measure == b.measure && a.side == b.side &&
           a.conditionsAfter.has_value() == b.conditionsAfter.has_value() &&
           a.flagsAfter.has_value() == b.flagsAfter.has_value() && !a.patientAfter && !b.patientAfter;
}

/// The newest edit, and those of its group before it, in the order they stand.
std::vector<Edit> newestOf(const std::vector<Edit>& edits)
{
    if (edits.empty())
        return {};
    auto first = edits.end() - 1;
    while (first->group != 0 && first != edits.begin() && (first - 1)->group == first->group)
        --first;
    return {first, edits.end()};
}

void move(std::vector<Edit>& from, std::vector<Edit>& to)
{
    to.push_back(from.back());
    from.pop_back();
}

} // namespace

void Undo::remember(const Edit& edit, Typing typing)
{
    const bool goesOn = typing == Typing::Further && !m_done.empty() && isOfSame(m_done.back(), edit) &&
                        m_done.back().group == 0;
    if (!goesOn) {
        m_done.push_back(edit);
    } else if (m_done.back().before == edit.after && m_done.back().conditionsBefore == edit.conditionsAfter &&
               m_done.back().flagsBefore == edit.flagsAfter) {
        m_done.pop_back();
    } else {
        m_done.back().after = edit.after;
        m_done.back().conditionsAfter = edit.conditionsAfter;
        m_done.back().flagsAfter = edit.flagsAfter;
    }
    m_undone.clear();
}

void Undo::clear()
{
    m_done.clear();
    m_undone.clear();
}

std::vector<Edit> Undo::last() const
{
    return newestOf(m_done);
}

std::vector<Edit> Undo::lastUndone() const
{
    std::vector<Edit> undone = newestOf(m_undone);
    std::ranges::reverse(undone);
    return undone;
}

void Undo::takenBack()
{
    move(m_done, m_undone);
}

void Undo::madeAgain()
{
    move(m_undone, m_done);
}

} // namespace session
