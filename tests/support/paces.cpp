#include "tests/support/paces.h"

#include <QCoreApplication>
#include <QTest>

#include <atomic>
#include <cstdio>
#include <ctime>
#include <sys/syscall.h>
#include <unistd.h>

using namespace Qt::StringLiterals;

namespace
{

constexpr qint64 restMs = 1'000;
constexpr int longestMs = 400; ///< of a random rest
constexpr quint32 seed = 1;

std::atomic<qint64> aheadMs = 0;

} // namespace

/// Stands in a test program in place of the library's: Qt and std::chrono read the steady clock through it,
/// which goes as ever and can be set forward. The clock of the day is left alone.
extern "C" int clock_gettime(clockid_t clock, timespec* time) noexcept
{
    const int failed = int(::syscall(SYS_clock_gettime, clock, time));
    const qint64 ahead = aheadMs;
    if (failed == 0 && clock == CLOCK_MONOTONIC && ahead > 0) {
        time->tv_sec += ahead / 1'000;
        time->tv_nsec += ahead % 1'000 * 1'000'000;
        if (time->tv_nsec >= 1'000'000'000) {
            time->tv_nsec -= 1'000'000'000;
            ++time->tv_sec;
        }
    }
    return failed;
}

QString Pace::words() const
{
    switch (m_kind) {
    case Kind::AtOnce:
        return u"at once"_s;
    case Kind::Resting:
        return u"resting"_s;
    case Kind::Random:
        break;
    }
    return u"random, seed %1"_s.arg(m_seed);
}

void Pace::key(QWidget* widget, int key, Qt::KeyboardModifiers modifiers)
{
    QTest::keyClick(widget, Qt::Key(key), modifiers);
    rest();
}

void Pace::type(QWidget* widget, const QString& text)
{
    for (const QChar letter : text) {
        QTest::keyClick(widget, letter.toLatin1());
        rest();
    }
}

namespace
{

QWidget* keyboardOf(QWidget* window)
{
    QWidget* const inside = window->focusWidget();
    return inside == nullptr ? window : inside;
}

} // namespace

void Pace::keyAt(QWidget* window, int key, Qt::KeyboardModifiers modifiers)
{
    this->key(keyboardOf(window), key, modifiers);
}

void Pace::typeAt(QWidget* window, const QString& text)
{
    for (const QChar letter : text)
        type(keyboardOf(window), letter);
}

void Pace::click(QWidget* widget)
{
    QTest::mouseClick(widget, Qt::LeftButton);
    rest();
}

void Pace::rest()
{
    if (m_kind == Kind::Resting)
        paces::letPass(restMs);
    else if (m_kind == Kind::Random && m_random.bounded(2) == 1)
        paces::letPass(m_random.bounded(longestMs));
}

void paces::letPass(qint64 milliseconds)
{
    constexpr qint64 step = 100; // a timer started by another comes due within the same time, in its turn
    for (qint64 gone = 0; gone < milliseconds; gone += step) {
        aheadMs += std::min(step, milliseconds - gone);
        QCoreApplication::processEvents();
    }
    QCoreApplication::processEvents();
}

void paces::each(const std::function<void(Pace&)>& run)
{
    for (Pace pace : {Pace(Pace::Kind::AtOnce), Pace(Pace::Kind::Resting), Pace(Pace::Kind::Random, seed)}) {
        run(pace);
        if (QTest::currentTestFailed()) {
            std::fprintf(stderr, "at the pace: %s\n", qPrintable(pace.words()));
            return;
        }
    }
}
