#include "app/trends/chart_view.h"

#include "app/charts/trend_words.h"
#include "app/session/messages.h"

#include <QHelpEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QToolTip>

#include <algorithm>
#include <cmath>
#include <memory>

using namespace Qt::StringLiterals;

namespace trends
{

ChartView::ChartView(QWidget* parent) : QChartView(parent)
{
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::StrongFocus);
    setRenderHint(QPainter::Antialiasing);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setMouseTracking(true);
}

void ChartView::show(const charts::TrendPoints& points, const charts::ChartLook& look,
                     const base::Phrasebook& phrases)
{
    const std::unique_ptr<QChart> old(chart());
    m_trend = new charts::TrendChart(points, look, phrases);
    setChart(m_trend);
    setFixedHeight(int(std::ceil(charts::heightFor(points, look.note))));
    setAccessibleName(tr("Trend of %1").arg(points.title));
    setAccessibleDescription(charts::spoken(points, phrases));
    setBackgroundBrush(look.colours.panel);
}

const charts::TrendPoints& ChartView::points() const
{
    return m_trend->points();
}

std::optional<records::VisitId> ChartView::visitAt(const QPoint& place) const
{
    return m_trend->visitNear(m_trend->mapFromScene(mapToScene(place)));
}

QString ChartView::wordsAt(const records::VisitId& visit) const
{
    QStringList lines;
    for (const charts::TrendLine& line : m_trend->points().lines) {
        const auto entry = std::ranges::find(line.entries, visit, &charts::TrendEntry::visit);
        if (entry == line.entries.end())
            continue;
        if (lines.isEmpty())
            lines << session::dayInWords(entry->day);
        lines << (line.name.isEmpty() ? entry->words : tr("%1: %2").arg(line.name, entry->words));
    }
    for (const charts::TrendEvent& event : m_trend->points().events) {
        if (event.visit == visit)
            lines << event.label;
    }
    return lines.join(u'\n');
}

void ChartView::mousePressEvent(QMouseEvent* event)
{
    setFocus(Qt::MouseFocusReason);
    const auto visit = visitAt(event->position().toPoint());
    if (visit && event->button() == Qt::LeftButton)
        Q_EMIT visitPicked(*visit, event->modifiers().testFlag(Qt::ShiftModifier));
}

void ChartView::mouseMoveEvent(QMouseEvent* event)
{
    viewport()->setCursor(visitAt(event->position().toPoint()) ? Qt::PointingHandCursor : Qt::ArrowCursor);
}

/// The page scrolls, not the chart.
void ChartView::wheelEvent(QWheelEvent* event)
{
    event->ignore();
}

void ChartView::keyPressEvent(QKeyEvent* event)
{
    const bool isReference = event->modifiers().testFlag(Qt::ShiftModifier);
    if (event->key() == Qt::Key_Left)
        Q_EMIT stepped(-1, isReference);
    else if (event->key() == Qt::Key_Right)
        Q_EMIT stepped(1, isReference);
    else
        event->ignore();
}

void ChartView::focusInEvent(QFocusEvent* event)
{
    QChartView::focusInEvent(event);
    viewport()->update();
    Q_EMIT focused();
}

void ChartView::focusOutEvent(QFocusEvent* event)
{
    QChartView::focusOutEvent(event);
    viewport()->update();
}

void ChartView::paintEvent(QPaintEvent* event)
{
    QChartView::paintEvent(event);
    if (!hasFocus())
        return;
    QPainter painter(viewport());
    painter.setPen(QPen(m_trend->look().colours.accent, 2));
    painter.drawRect(viewport()->rect().adjusted(1, 1, -1, -1));
}

bool ChartView::viewportEvent(QEvent* event)
{
    if (event->type() != QEvent::ToolTip)
        return QChartView::viewportEvent(event);
    const auto* help = static_cast<QHelpEvent*>(event);
    const auto visit = visitAt(help->pos());
    QToolTip::showText(help->globalPos(), visit ? wordsAt(*visit) : QString(), viewport());
    return true;
}

} // namespace trends
