#include "app/widgets/tap_counter.h"

#include "app/widgets/sound.h"
#include "app/widgets/theme.h"
#include "core/base/rounding.h"

#include <QKeyEvent>
#include <QPainter>

namespace widgets
{

TapCounter::TapCounter(std::function<qint64()> milliseconds, QWidget* parent)
    : QAbstractButton(parent), m_milliseconds(std::move(milliseconds))
{
    setFocusPolicy(Qt::ClickFocus);
    setCursor(Qt::PointingHandCursor);
    setAccessibleName(tr("Tap counter"));
    setToolTip(tr("Space, Return or a click counts a tap, for 10 s from the first. Escape drops the run. A "
                  "count that is done stays until another one is asked for."));
    m_ticks.setInterval(100);
    connect(&m_ticks, &QTimer::timeout, this, &TapCounter::look);
}

void TapCounter::tap()
{
    look();
    const qint64 now = m_milliseconds();
    if (isLocked())
        return;
    if (!isRunning()) {
        m_since = now;
        m_taps = {0};
        m_ticks.start();
        Q_EMIT started();
    } else if (const double at = double(now - m_since) / 1000; at > m_taps.back()) {
        m_taps.push_back(at);
    }
    update();
}

void TapCounter::look()
{
    if (isRunning() && m_milliseconds() - m_since >= runMs) {
        m_ticks.stop();
        m_standing = int(m_taps.size());
        m_isAgain = false;
        sound();
        Q_EMIT counted(m_taps);
        Q_EMIT settled();
    }
    update();
}

void TapCounter::cancel()
{
    m_ticks.stop();
    m_taps.clear();
    m_isAgain = false;
    update();
    Q_EMIT settled();
}

void TapCounter::setStanding(std::optional<int> count)
{
    m_standing = count;
    update();
    Q_EMIT settled();
}

void TapCounter::countAgain()
{
    m_ticks.stop();
    m_taps.clear();
    m_isAgain = true;
    update();
    Q_EMIT settled();
}

QSize TapCounter::sizeHint() const
{
    return {160, 64};
}

void TapCounter::keyPressEvent(QKeyEvent* event)
{
    const int key = event->key();
    if (key == Qt::Key_Space || key == Qt::Key_Return || key == Qt::Key_Enter) {
        if (!event->isAutoRepeat())
            tap();
    } else if (key == Qt::Key_Escape) {
        cancel();
        Q_EMIT left();
    } else {
        QAbstractButton::keyPressEvent(event);
    }
}

void TapCounter::mousePressEvent(QMouseEvent*)
{
    tap();
}

/// Whoever has gone elsewhere taps no more: what was counted until then is no count of 10 s.
void TapCounter::focusOutEvent(QFocusEvent* event)
{
    QAbstractButton::focusOutEvent(event);
    if (event->reason() == Qt::ActiveWindowFocusReason || event->reason() == Qt::PopupFocusReason)
        return;
    look();
    const bool wasRunning = isRunning();
    if (wasRunning || m_isAgain)
        cancel();
    if (wasRunning)
        Q_EMIT dropped();
}

bool TapCounter::focusNextPrevChild(bool forward)
{
    Q_EMIT passed(forward);
    return true;
}

void TapCounter::paintEvent(QPaintEvent*)
{
    const Colours& colours = coloursFor(palette());
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colours.accent, hasFocus() ? 2.5 : 1.5));
    painter.setBrush(isRunning() ? colours.accent : underMouse() ? colours.accentSoft : colours.panel);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 8, 8);
    painter.setPen(isRunning() ? colours.onAccent : colours.accent);
    painter.setFont(headingFont());
    const QRect room = rect().adjusted(0, space1, 0, -space1);
    const int count = isLocked() ? *m_standing : int(m_taps.size());
    painter.drawText(room.adjusted(0, 0, 0, -room.height() * 2 / 5), Qt::AlignCenter,
                     isLocked() || !m_taps.empty() ? QString::number(count) : tr("Count taps"));
    painter.setFont(captionFont());
    const double left = isRunning() ? double(runMs - (m_milliseconds() - m_since)) / 1000 : 0;
    painter.drawText(room.adjusted(0, room.height() * 3 / 5, 0, 0), Qt::AlignCenter,
                     isRunning()  ? tr("%1 s left").arg(base::fixed(std::max(0.0, left), 1))
                     : isLocked() ? tr("counted")
                     : hasFocus() ? tr("first tap starts 10 s")
                                  : tr("Space"));
}

} // namespace widgets
