#include "app/charts/time_window.h"

#include <algorithm>

namespace charts
{

namespace
{

constexpr double leastDays = 28;

} // namespace

void TimeWindow::stretch(double times, double about)
{
    const double whole = m_whole.to - m_whole.from;
    const double length = std::clamp(days() * times, std::min(leastDays, whole), whole);
    const double kept = std::clamp(about, m_from, m_to);
    m_from = kept - (kept - m_from) / days() * length;
    m_to = m_from + length;
    move(0);
}

void TimeWindow::move(double days)
{
    const double length = m_to - m_from;
    m_from = std::clamp(m_from + days, m_whole.from, m_whole.to - length);
    m_to = m_from + length;
}

void TimeWindow::showAll()
{
    m_from = m_whole.from;
    m_to = m_whole.to;
}

} // namespace charts
