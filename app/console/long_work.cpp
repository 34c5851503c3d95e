#include "app/console/long_work.h"

#include "app/session/messages.h"

#include <array>
#include <csignal>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

constexpr std::array endings = {SIGINT, SIGTERM, SIGHUP};

using Handler = void (*)(int);

std::array<Handler, endings.size()> before = {};
volatile std::sig_atomic_t isStopWished = 0;

void wishStop(int signal)
{
    isStopWished = 1;
    std::signal(signal, SIG_DFL);
}

} // namespace

LongWork::LongWork(const Request& request, const base::Message& what)
    : m_terminal(request.terminal), m_what(what)
{
    isStopWished = 0;
    for (size_t i = 0; i < endings.size(); ++i) {
        before[i] = std::signal(endings[i], wishStop);
        if (before[i] == SIG_IGN) // of a program that outlives its terminal
            std::signal(endings[i], SIG_IGN);
    }
    m_since.start();
}

LongWork::~LongWork()
{
    for (size_t i = 0; i < endings.size(); ++i)
        std::signal(endings[i], before[i]);
    if (m_shown.isEmpty())
        return;
    show({});
    *m_terminal << '\r' << Qt::flush;
}

bool LongWork::went(int percent)
{
    constexpr int moment = 500; // ms
    if (m_terminal != nullptr && m_since.elapsed() > moment)
        show(line(percent));
    return isStopWished == 0;
}

QString LongWork::line(int percent) const
{
    const base::Message done = base::said("%1: %2 percent").arg(m_what, percent);
    const base::Message stop = base::said("Ctrl+C stops it");
    const auto rest = records::secondsLeft(m_since.elapsed(), percent, 100);
    const base::Message words =
        rest
            ? base::said("%1, %2. %3.")
                  .arg(done, base::counted("about %1 second left", "about %1 seconds left", *rest).arg(*rest),
                       stop)
            : base::said("%1. %2.").arg(done, stop);
    return words.in(session::screenPhrases());
}

/// Over what was shown before.
void LongWork::show(const QString& line)
{
    if (line == m_shown)
        return;
    *m_terminal << '\r' << line.leftJustified(m_shown.size()) << Qt::flush;
    m_shown = line;
}

} // namespace console
