#include "app/widgets/stopwatch.h"

#include "app/widgets/big_key.h"
#include "app/widgets/sound.h"
#include "core/base/rounding.h"

#include <chrono>

namespace widgets
{

Stopwatch::Stopwatch(std::function<qint64()> milliseconds, QWidget* parent)
    : QAbstractButton(parent), m_milliseconds(std::move(milliseconds))
{
    setFocusPolicy(Qt::NoFocus);
    setCursor(Qt::PointingHandCursor);
    setText(tr("Start"));
    setAccessibleName(tr("Stopwatch"));
    setToolTip(tr("Space in a time field starts and stops, L takes the time of a trial and runs on for the "
                  "next, Escape drops it. Timed "
                  "by hand, expect an error of about 0.1 to 0.2 s."));
    m_ticks.setInterval(100);
    connect(&m_ticks, &QTimer::timeout, this, &Stopwatch::look);
    connect(this, &QAbstractButton::pressed, this, &Stopwatch::toggle);
}

void Stopwatch::toggle()
{
    look();
    if (isRunning()) {
        const qint64 time = ran();
        stop();
        Q_EMIT stopped(time);
        return;
    }
    m_since = m_milliseconds();
    m_ticks.start();
    setText(tr("Stop"));
    update();
    sound();
    Q_EMIT started();
}

void Stopwatch::lap()
{
    look();
    if (!isRunning())
        return;
    const qint64 time = ran();
    m_since += time;
    update();
    Q_EMIT lapped(time);
}

qint64 Stopwatch::ran() const
{
    return isRunning() ? m_milliseconds() - m_since : 0;
}

/// Whether the test has lasted as long as it may.
void Stopwatch::look()
{
    if (isRunning() && m_cap && ran() >= *m_cap) {
        stop();
        sound();
        Q_EMIT capped();
    }
    update();
}

void Stopwatch::stop()
{
    m_ticks.stop();
    setText(tr("Start"));
    update();
}

void Stopwatch::cancel()
{
    stop();
}

QSize Stopwatch::sizeHint() const
{
    return {136, 52};
}

void Stopwatch::paintEvent(QPaintEvent*)
{
    drawBigKey(*this, isRunning(), tr("%1 s", "seconds").arg(base::fixed(double(ran()) / 1000, 1)),
               tr("%1 · Space", "stopwatch key: start or stop, and the key on the keyboard").arg(text()));
}

std::function<qint64()> steadyClock()
{
    return [] {
        const auto now = std::chrono::steady_clock::now().time_since_epoch();
        return qint64(std::chrono::duration_cast<std::chrono::milliseconds>(now).count());
    };
}

} // namespace widgets
