#include "app/widgets/tap_counter.h"

#include "app/widgets/big_key.h"
#include "app/widgets/sound.h"
#include "core/base/rounding.h"

#include <QKeyEvent>

#include <algorithm>

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
    return {160, 52};
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
    const int count = isLocked() ? *m_standing : int(m_taps.size());
    const double left = isRunning() ? double(runMs - (m_milliseconds() - m_since)) / 1000 : 0;
    drawBigKey(*this, isRunning(), isLocked() || !m_taps.empty() ? QString::number(count) : tr("Count taps"),
               isRunning()  ? tr("%1 s left").arg(base::fixed(std::max(0.0, left), 1))
               : isLocked() ? tr("counted")
               : hasFocus() ? tr("first tap starts 10 s")
                            : tr("Space"));
}

} // namespace widgets
