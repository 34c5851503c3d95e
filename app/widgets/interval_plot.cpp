#include "app/widgets/interval_plot.h"

#include "app/widgets/theme.h"
#include "core/statistics/mean.h"

#include <QPainter>

#include <algorithm>

namespace widgets
{

IntervalPlot::IntervalPlot(QWidget* parent) : QWidget(parent)
{
    setAccessibleName(tr("Intervals between the taps"));
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    hide();
}

void IntervalPlot::setTaps(const std::vector<double>& taps, const QString& words)
{
    m_intervals.clear();
    for (size_t tap = 1; tap < taps.size(); ++tap)
        m_intervals.push_back(taps[tap] - taps[tap - 1]);
    setVisible(m_intervals.size() > 1);
    setAccessibleDescription(words);
    setToolTip(tr("Each bar is the time from one tap to the next, the line their mean.\n%1").arg(words));
    update();
}

QSize IntervalPlot::sizeHint() const
{
    return {180, 52};
}

void IntervalPlot::paintEvent(QPaintEvent*)
{
    if (m_intervals.size() < 2)
        return;
    const Colours& colours = coloursFor(palette());
    const double longest = std::ranges::max(m_intervals);
    const QRectF room = QRectF(rect()).adjusted(1, 4, -1, -2);
    const double step = room.width() / double(m_intervals.size());
    QPainter painter(this);
    for (size_t bar = 0; bar < m_intervals.size(); ++bar) {
        const double height = room.height() * m_intervals[bar] / longest;
        painter.fillRect(
            QRectF(room.left() + double(bar) * step, room.bottom() - height, std::max(1.0, step - 1), height),
            colours.edge);
    }
    painter.setPen(QPen(colours.accent, 1.4));
    const double level = room.bottom() - room.height() * statistics::mean(m_intervals) / longest;
    painter.drawLine(QPointF(room.left(), level), QPointF(room.right(), level));
}

} // namespace widgets
