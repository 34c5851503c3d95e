#include "core/records/as_of.h"

#include <algorithm>

namespace records
{

AsOf::AsOf(const VisitId& visit, std::vector<Visit> visits)
{
    std::ranges::stable_sort(visits, {}, &Visit::day);
    const auto last = std::ranges::find(visits, visit, &Visit::id);
    if (last == visits.end())
        return;
    visits.erase(last + 1, visits.end());
    m_visits = std::move(visits);
}

} // namespace records
