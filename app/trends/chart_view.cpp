#include "app/trends/chart_view.h"

#include "app/charts/trend_words.h"
#include "app/widgets/spoken_role.h"

#include <QAction>
#include <QApplication>
#include <QGestureEvent>
#include <QKeyEvent>
#include <QMouseEvent>

#include <cmath>
#include <memory>

using namespace Qt::StringLiterals;

namespace trends
{

namespace
{

constexpr double wheelStep = 1.2;
constexpr double keyStep = 1.5;

} // namespace

ChartView::ChartView(QWidget* parent) : QChartView(parent)
{
    widgets::setSpokenRole(*this, QAccessible::Graphic);
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::StrongFocus);
    viewport()->setFocusPolicy(Qt::NoFocus); // one stop, not two
    setRenderHint(QPainter::Antialiasing);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setMouseTracking(true);
    viewport()->setAttribute(Qt::WA_AcceptTouchEvents);
    for (const Qt::GestureType gesture : {Qt::PinchGesture, Qt::PanGesture})
        viewport()->grabGesture(gesture);
    setContextMenuPolicy(Qt::ActionsContextMenu);
    auto* copy = new QAction(tr("&Copy as picture"), this);
    copy->setObjectName(u"copyChart"_s);
    copy->setShortcut(QKeySequence::Copy);
    copy->setShortcutContext(Qt::WidgetShortcut);
    connect(copy, &QAction::triggered, this, &ChartView::copyAsked);
    addAction(copy);
}

void ChartView::show(const charts::TrendPoints& points, const charts::ChartLook& look,
                     const base::Phrasebook& phrases)
{
    const std::unique_ptr<QChart> old(chart());
    m_cursor.reset();
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

void ChartView::show(const charts::TimeWindow& window)
{
    m_trend->show(window);
    viewport()->update();
}

void ChartView::read(const std::optional<QDate>& day, const QString& words)
{
    updateCursor();
    m_cursor = day;
    updateCursor();
    if (!words.isEmpty())
        setAccessibleDescription(words); // which tells a screen reader
}

void ChartView::updateCursor()
{
    if (!m_cursor)
        return;
    const int at = int(m_trend->x(*m_cursor));
    viewport()->update(QRect(at - 3, 0, 6, height()));
}

double ChartView::dayAt(double x) const
{
    const QRectF& plot = m_trend->frame().plot;
    const charts::Axis& time = m_trend->time();
    return time.from + (x - plot.left()) / plot.width() * (time.to - time.from);
}

/// What is under the hand stays there.
void ChartView::drag(double pixels)
{
    Q_EMIT moved(dayAt(0) - dayAt(pixels));
}

void ChartView::mousePressEvent(QMouseEvent* event)
{
    setFocus(Qt::MouseFocusReason);
    if (event->button() == Qt::LeftButton)
        m_pressed = event->position();
}

void ChartView::mouseMoveEvent(QMouseEvent* event)
{
    if (m_pressed) {
        const double along = event->position().x() - m_pressed->x();
        m_isDragging = m_isDragging || std::abs(along) >= QApplication::startDragDistance();
        if (!m_isDragging)
            return;
        viewport()->setCursor(Qt::ClosedHandCursor);
        drag(along);
        m_pressed = event->position();
        return;
    }
    const auto visit = visitAt(event->position().toPoint());
    viewport()->setCursor(visit ? Qt::PointingHandCursor : Qt::ArrowCursor);
    if (visit)
        Q_EMIT pointedAt(*visit);
}

void ChartView::mouseReleaseEvent(QMouseEvent* event)
{
    const bool isClick = m_pressed && !m_isDragging;
    m_pressed.reset();
    m_isDragging = false;
    const auto visit = isClick ? visitAt(event->position().toPoint()) : std::nullopt;
    if (visit)
        Q_EMIT visitPicked(*visit, event->modifiers().testFlag(Qt::ShiftModifier));
}

/// The page scrolls, not the chart.
void ChartView::wheelEvent(QWheelEvent* event)
{
    if (!event->modifiers().testFlag(Qt::ControlModifier)) {
        event->ignore();
        return;
    }
    constexpr double notch = 120;
    Q_EMIT stretched(std::pow(wheelStep, -event->angleDelta().y() / notch), dayAt(event->position().x()));
    event->accept();
}

bool ChartView::stepByKey(const QKeyEvent& event)
{
    if (event.key() != Qt::Key_Left && event.key() != Qt::Key_Right)
        return false;
    const int step = event.key() == Qt::Key_Left ? -1 : 1;
    if (event.modifiers().testFlag(Qt::ControlModifier))
        Q_EMIT readingStepped(step);
    else if (event.modifiers().testFlag(Qt::AltModifier))
        Q_EMIT moved(step * (m_trend->time().to - m_trend->time().from) / 4);
    else
        Q_EMIT stepped(step, event.modifiers().testFlag(Qt::ShiftModifier));
    return true;
}

bool ChartView::changeTimeByKey(const QKeyEvent& event)
{
    if (event.modifiers() & (Qt::ControlModifier | Qt::AltModifier))
        return false;
    const double about = m_cursor && m_trend->isShown(*m_cursor)
                             ? double(m_cursor->toJulianDay())
                             : (m_trend->time().from + m_trend->time().to) / 2;
    if (event.text() == u"+")
        Q_EMIT stretched(1 / keyStep, about);
    else if (event.text() == u"-")
        Q_EMIT stretched(keyStep, about);
    else if (event.text() == u"0")
        Q_EMIT wholeAsked();
    else
        return false;
    return true;
}

void ChartView::keyPressEvent(QKeyEvent* event)
{
    event->setAccepted(stepByKey(*event) || changeTimeByKey(*event));
}

/// Two fingers: apart and together, and along.
void ChartView::follow(QGestureEvent& event)
{
    m_pressed.reset(); // the first finger is no mouse
    if (const auto* pinch = static_cast<QPinchGesture*>(event.gesture(Qt::PinchGesture));
        pinch != nullptr && pinch->changeFlags().testFlag(QPinchGesture::ScaleFactorChanged))
        Q_EMIT stretched(1 / pinch->scaleFactor(),
                         dayAt(viewport()->mapFromGlobal(pinch->centerPoint()).x()));
    if (const auto* pan = static_cast<QPanGesture*>(event.gesture(Qt::PanGesture)))
        drag(pan->delta().x());
    event.accept();
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
    QPainter painter(viewport());
    if (m_cursor && m_trend->isShown(*m_cursor)) {
        const charts::Frame& frame = m_trend->frame();
        const double at = m_trend->x(*m_cursor);
        painter.setPen(QPen(m_trend->look().colours.quiet, 1, Qt::DashLine));
        painter.drawLine(QPointF(at, frame.plot.top()), QPointF(at, frame.events.bottom()));
    }
    if (!hasFocus())
        return;
    painter.setPen(QPen(m_trend->look().colours.accent, 2));
    painter.drawRect(viewport()->rect().adjusted(1, 1, -1, -1));
}

bool ChartView::viewportEvent(QEvent* event)
{
    if (event->type() != QEvent::Gesture)
        return QChartView::viewportEvent(event);
    follow(*static_cast<QGestureEvent*>(event));
    return true;
}

} // namespace trends
