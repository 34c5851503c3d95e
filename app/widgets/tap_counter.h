#pragma once

#include <QAbstractButton>
#include <QTimer>

#include <functional>
#include <optional>
#include <vector>

namespace widgets
{

/// A large key that counts taps (Space, Return or a click) and keeps their instants. A run lasts 10 s from
/// the first tap (common practice, no source). A count that is done is locked: taps change nothing until
/// another one is asked for. Escape drops the run, and so does leaving the key before the run is over.
class TapCounter : public QAbstractButton
{
    Q_OBJECT

public:
    static constexpr qint64 runMs = 10'000;

    /// `milliseconds` reads a clock that never goes back.
    explicit TapCounter(std::function<qint64()> milliseconds, QWidget* parent);

    bool isRunning() const { return m_ticks.isActive(); }
    void tap();
    /// Drops the run and tells nobody of it.
    void cancel();
    /// The count that stands, or that there is none.
    void setStanding(std::optional<int> count);
    /// Taps do nothing: a count stands and no other one was asked for.
    bool isLocked() const { return m_standing && !m_isAgain && !isRunning(); }
    /// Another count: the next tap starts it.
    void countAgain();
    QSize sizeHint() const override;

Q_SIGNALS:
    void started();
    void counted(const std::vector<double>& taps); ///< seconds from the first tap, which is 0
    void left();                                   ///< Escape
    void passed(bool forward);                     ///< Tab, or Tab with Shift
    void dropped();                                ///< left before the run was over
    void settled();                                ///< it may be locked now, or be so no more

protected:
    void paintEvent(QPaintEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    bool focusNextPrevChild(bool forward) override;

private:
    void look(); ///< whether the run is over

    std::function<qint64()> m_milliseconds;
    qint64 m_since = 0;
    std::vector<double> m_taps;
    std::optional<int> m_standing;
    bool m_isAgain = false; ///< another count was asked for
    QTimer m_ticks;
};

} // namespace widgets
