#pragma once

#include <QAbstractButton>
#include <QTimer>

#include <functional>
#include <optional>

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
    /// The time since the start or the lap before goes out, and the clock runs on.
    void lap();
    /// Stops by itself when it has run so long (ms); empty: never.
    void setCap(std::optional<qint64> cap) { m_cap = cap; }
    qint64 ran() const; ///< since the start or the last lap, ms; 0 where it does not run
    QSize sizeHint() const override;

Q_SIGNALS:
    void started();
    void stopped(qint64 milliseconds); ///< how long it ran, since the last lap
    void lapped(qint64 milliseconds);  ///< since the start or the lap before
    void capped();                     ///< stopped because it ran as long as the test may last

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void look();
    void stop();

    std::function<qint64()> m_milliseconds;
    std::optional<qint64> m_cap;
    qint64 m_since = 0;
    QTimer m_ticks;
};

/// The clock of this computer that never goes back.
std::function<qint64()> steadyClock();

} // namespace widgets
