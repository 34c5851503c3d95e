#include "core/exchange/faults.h"

#include <algorithm>

namespace exchange
{

void Faults::about(const QString& patient, QDate day)
{
    m_patient = patient;
    m_day = day;
}

void Faults::add(int line, const base::Error& error)
{
    ++m_count;
    if (m_first.size() < most)
        m_first.push_back({line, m_patient, m_day, error});
}

std::vector<Fault> Faults::byLine() const
{
    std::vector<Fault> sorted = m_first;
    std::ranges::stable_sort(sorted, {}, &Fault::line);
    return sorted;
}

base::Error Faults::asOne() const
{
    constexpr size_t shown = 20;
    const std::vector<Fault> sorted = byLine();
    base::Messages lines;
    for (size_t i = 0; i < std::min(sorted.size(), shown); ++i)
        lines.push_back(sorted[i].error.what);
    if (m_count > qint64(shown))
        lines.push_back(base::said("And %1 more.").arg(m_count - qint64(shown)));
    return {sorted.front().error.kind, base::inLines(lines), sorted.front().error.detail};
}

} // namespace exchange
