#pragma once

#include "app/charts/axis.h"

namespace charts
{

/// The part of a time axis that is shown. It never leaves the axis, and never shows less than four weeks.
class TimeWindow
{
public:
    TimeWindow() = default;
    explicit TimeWindow(const Axis& whole) : m_whole(whole), m_from(whole.from), m_to(whole.to) {}

    double from() const { return m_from; }
    double to() const { return m_to; }
    double days() const { return m_to - m_from; }
    bool isWhole() const { return m_from <= m_whole.from && m_to >= m_whole.to; }
    bool isOf(const Axis& whole) const { return m_whole.from == whole.from && m_whole.to == whole.to; }

    /// So many times as long; a day of it stays in its place.
    void stretch(double times, double about);
    void move(double days);
    void showAll();

private:
    Axis m_whole;
    double m_from = 0;
    double m_to = 1;
};

} // namespace charts
