#pragma once

#include <QAbstractButton>
#include <QTimer>

#include <functional>

namespace widgets
{

/// A large key that starts and stops a clock, and shows it running. Started and stopped by hand a time is off
/// by about 0.1 to 0.2 s (common practice, from memory), so no more than tenths are shown while it runs.
class Stopwatch : public QAbstractButton
{
    Q_OBJECT

public:
    /// `milliseconds` reads a clock that never goes back.
    explicit Stopwatch(std::function<qint64()> milliseconds, QWidget* parent);

    bool isRunning() const { return m_ticks.isActive(); }
    void toggle();
    void cancel(); ///< stops and tells nobody
    QSize sizeHint() const override;

Q_SIGNALS:
    void started();
    void stopped(qint64 milliseconds); ///< how long it ran

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    std::function<qint64()> m_milliseconds;
    qint64 m_since = 0;
    QTimer m_ticks;
};

/// The clock of this computer that never goes back.
std::function<qint64()> steadyClock();

} // namespace widgets
