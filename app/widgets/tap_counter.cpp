#include "app/widgets/tap_counter.h"

#include "app/widgets/theme.h"

#include <QKeyEvent>
#include <QLocale>
#include <QPainter>

namespace widgets
{

TapCounter::TapCounter(std::function<qint64()> milliseconds, QWidget* parent)
    : QAbstractButton(parent), m_milliseconds(std::move(milliseconds))
{
    setFocusPolicy(Qt::ClickFocus);
    setCursor(Qt::PointingHandCursor);
    setAccessibleName(tr("Tap counter"));
    setToolTip(tr("Space, Return or a click counts a tap, for 10 s from the first. Escape drops the run."));
    m_ticks.setInterval(100);
    connect(&m_ticks, &QTimer::timeout, this, &TapCounter::look);
}

void TapCounter::tap()
{
    look();
    const qint64 now = m_milliseconds();
    if (!isRunning()) {
        if (!m_taps.empty() && now - m_since < runMs + restMs)
            return;
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
        Q_EMIT counted(m_taps);
    }
    update();
}

void TapCounter::cancel()
{
    m_ticks.stop();
    m_taps.clear();
    update();
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
    painter.drawText(room.adjusted(0, 0, 0, -room.height() * 2 / 5), Qt::AlignCenter,
                     m_taps.empty() ? tr("Count taps") : QLocale().toString(int(m_taps.size())));
    painter.setFont(captionFont());
    const double left = isRunning() ? double(runMs - (m_milliseconds() - m_since)) / 1000 : 0;
    painter.drawText(room.adjusted(0, room.height() * 3 / 5, 0, 0), Qt::AlignCenter,
                     isRunning()  ? tr("%1 s left").arg(QLocale().toString(std::max(0.0, left), 'f', 1))
                     : hasFocus() ? tr("first tap starts 10 s")
                                  : tr("Space"));
}

} // namespace widgets
