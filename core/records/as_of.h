#pragma once

#include "core/records/visit.h"

namespace records
{

/// The visits of a patient as they stood at one of them: that visit, the last, and those before it. Later
/// ones are cut off here and nowhere else, so that what is made of this value cannot know them.
class AsOf
{
public:
    AsOf() = default;
    /// `visits` are the versions that count, those of one day in their order. Without the visit among
    /// them there is none.
    AsOf(const VisitId& visit, std::vector<Visit> visits);

    const std::vector<Visit>& visits() const { return m_visits; }
    /// nullptr where it was not among the visits given.
    const Visit* visit() const { return m_visits.empty() ? nullptr : &m_visits.back(); }

private:
    std::vector<Visit> m_visits; ///< oldest first
};

} // namespace records
