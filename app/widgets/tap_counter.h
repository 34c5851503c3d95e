#pragma once

#include <QAbstractButton>
#include <QTimer>

#include <functional>
#include <vector>

namespace widgets
{

/// A large key that counts taps (Space, Return or a click) and keeps their instants. A run lasts 10 s from
/// the first tap (common practice, no source); who taps on for up to 2 s after it does not start another.
/// Escape drops the run.
class TapCounter : public QAbstractButton
{
    Q_OBJECT

public:
    static constexpr qint64 runMs = 10'000;
    static constexpr qint64 restMs = 2'000;

    /// `milliseconds` reads a clock that never goes back.
    explicit TapCounter(std::function<qint64()> milliseconds, QWidget* parent);

    bool isRunning() const { return m_ticks.isActive(); }
    void tap();
    void cancel(); ///< drops the run and tells nobody
    QSize sizeHint() const override;

Q_SIGNALS:
    void started();
    void counted(const std::vector<double>& taps); ///< seconds from the first tap, which is 0
    void left();                                   ///< Escape

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;

private:
    void look(); ///< whether the run is over

    std::function<qint64()> m_milliseconds;
    qint64 m_since = 0;
    std::vector<double> m_taps;
    QTimer m_ticks;
};

} // namespace widgets
