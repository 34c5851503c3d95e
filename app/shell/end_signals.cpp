#include "app/shell/end_signals.h"

#include <QSocketNotifier>

#include <array>
#include <csignal>
#include <fcntl.h>
#include <unistd.h>

namespace shell
{

namespace
{

constexpr std::array endings = {SIGTERM, SIGINT, SIGHUP};

/// A handler may do no more than write a byte, which the event loop reads.
std::array<int, 2> ends = {-1, -1};

void note(int)
{
    const char byte = 1;
    [[maybe_unused]] const auto written = ::write(ends[1], &byte, 1);
}

void handleWith(void (*handler)(int))
{
    for (const int signal : endings)
        std::signal(signal, handler);
}

} // namespace

EndSignals::EndSignals()
{
    if (::pipe2(ends.data(), O_CLOEXEC | O_NONBLOCK) != 0)
        return; // the system's way to end a program is left
    auto* heard = new QSocketNotifier(ends[0], QSocketNotifier::Read, this);
    connect(heard, &QSocketNotifier::activated, this, [this, heard] {
        heard->setEnabled(false);
        Q_EMIT asked();
    });
    handleWith(note);
}

EndSignals::~EndSignals()
{
    handleWith(SIG_DFL);
    for (int& end : ends) {
        if (end >= 0)
            ::close(end);
        end = -1;
    }
}

} // namespace shell
