#pragma once

#include <QRandomGenerator>
#include <QWidget>

#include <functional>

/// Keys at one of three paces. People pause, and what a program does in a pause (timers, what comes due a
/// moment later) is where typing gets lost. No pace waits: the clock that timers go by is set forward
/// instead.
class Pace
{
public:
    enum class Kind {
        AtOnce,  ///< no pause at all
        Resting, ///< after each key a second goes by: every running timer fires, and all that follows settles
        Random   ///< after each key nothing, or up to 400 ms
    };

    explicit Pace(Kind kind, quint32 seed = 0) : m_kind(kind), m_seed(seed), m_random(seed) {}

    Kind kind() const { return m_kind; }
    /// "at once", "resting", "random, seed 3".
    QString words() const;

    /// A key, or a text key by key, into this widget.
    void key(QWidget* widget, int key, Qt::KeyboardModifiers modifiers = Qt::NoModifier);
    void type(QWidget* widget, const QString& text);
    /// The same into whatever has the keyboard in this window; asked anew before each key.
    void keyAt(QWidget* window, int key, Qt::KeyboardModifiers modifiers = Qt::NoModifier);
    void typeAt(QWidget* window, const QString& text);
    void click(QWidget* widget);
    /// What this pace does after a key; for the steps that a test takes by itself.
    void rest();

private:
    Kind m_kind;
    quint32 m_seed;
    QRandomGenerator m_random;
};

namespace paces
{

/// Runs the sequence at all three paces. Says at which pace it failed.
void each(const std::function<void(Pace&)>& run);

/// Sets the clock of all timers forward and lets everything happen that is due by then.
void letPass(qint64 milliseconds);

} // namespace paces
