#include "core/statistics/turn.h"

#include <algorithm>

namespace statistics
{

double Turn::size() const
{
    return std::max(highest.mean - now, now - lowest.mean);
}

void GrowingTurn::add(double value)
{
    constexpr int firstFree = 3; // the pair before the last but one exists
    if (m_count >= firstFree) {
        const Pair free{m_count - 2, m_meanBefore};
        if (!m_highest || free.mean > m_highest->mean)
            m_highest = free;
        if (!m_lowest || free.mean < m_lowest->mean)
            m_lowest = free;
    }
    m_meanBefore = m_lastMean;
    m_lastMean = (m_last + value) / 2;
    m_last = value;
    ++m_count;
}

std::optional<Turn> GrowingTurn::turn() const
{
    return m_highest && m_lowest ? std::optional(Turn{m_lastMean, *m_highest, *m_lowest}) : std::nullopt;
}

} // namespace statistics
