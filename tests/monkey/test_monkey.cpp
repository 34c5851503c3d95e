#include "tests/monkey/clinic.h"
#include "tests/monkey/hand.h"
#include "tests/monkey/looking.h"
#include "tests/support/paces.h"

#include <QCommandLineParser>
#include <QDesktopServices>
#include <QFile>
#include <QScopedValueRollback>
#include <QThread>
#include <QTimer>

#include <csignal>
#include <cstdio>
#include <sys/time.h>
#include <unistd.h>

using namespace Qt::StringLiterals;
using namespace monkey;

/// Set by the sanitizers where they are linked.
extern "C" void __sanitizer_set_death_callback(void (*callback)()) __attribute__((weak));
extern "C" void __sanitizer_print_stack_trace() __attribute__((weak));

namespace
{

constexpr int sequencesOfLife = 50; ///< before the window is opened anew
constexpr int stepsOfSequence = 20;
constexpr int longestSeconds = 300;     ///< of the processor for one sequence, on the slowest build
constexpr unsigned longestWait = 3'600; ///< by the clock, where it waits for ever

QByteArray lifeFile; ///< where the steps of this life are written, for who cannot say more any more

void sayWhere()
{
    const auto say = [](const QByteArray& words) {
        return ::write(STDERR_FILENO, words.constData(), words.size());
    };
    if (say("The program died. Play it again with: monkey --steps ") < 0 || say(lifeFile) < 0 ||
        say("\n") < 0)
        return;
}

void die(int signal)
{
    sayWhere();
    if (__sanitizer_print_stack_trace != nullptr)
        __sanitizer_print_stack_trace(); // where it hangs
    std::signal(signal, SIG_DFL);
    std::raise(signal);
}

QStringList warnings;

void keepWarning(QtMsgType type, const QMessageLogContext&, const QString& message)
{
    // So the offscreen platform says of what only a screen can do.
    if (message.startsWith(u"This plugin does not support"_s))
        return;
    if (type == QtFatalMsg) {
        std::fprintf(stderr, "%s\n", qPrintable(message));
        std::abort();
    }
    if (type == QtWarningMsg || type == QtCriticalMsg)
        warnings += message;
}

/// Nothing of a test leaves the computer.
class NoBrowser : public QObject
{
    Q_OBJECT

public Q_SLOTS:
    void open(const QUrl&) {}
};

/// A machine that has more to do is slow, and no fault.
void limitTime()
{
    const itimerval ofProcessor{{0, 0}, {longestSeconds, 0}};
    ::setitimer(ITIMER_PROF, &ofProcessor, nullptr);
    ::alarm(longestWait);
}

/// One life: a demo clinic, and a number of sequences one after the other; each ends with a look at the
/// records and the form. Dialogs run loops of their own, in which the sequence goes on.
class Life : public QObject
{
public:
    Life(quint32 seed, int sequences, QStringList given)
        : m_hand(seed), m_sequences(sequences), m_given(std::move(given))
    {
        lifeFile = u"monkey-%1.steps"_s.arg(seed).toLocal8Bit();
        m_file = std::fopen(lifeFile.constData(), "w");
    }
    ~Life() override
    {
        std::fclose(m_file);
        if (m_faults.isEmpty() && m_given.isEmpty())
            std::remove(lifeFile.constData());
    }

    QStringList run()
    {
        begin();
        QTimer::singleShot(1, this, [this] { tick(); });
        QApplication::exec();
        return m_faults;
    }
    int done() const { return m_done; }

private:
    void begin()
    {
        limitTime();
        m_steps = 0;
        if (m_given.isEmpty())
            act(m_hand.pace());
    }

    bool isAtEnd() const
    {
        return m_given.isEmpty() ? m_steps >= stepsOfSequence : m_place >= m_given.size();
    }

    void tick()
    {
        const int loops = QThread::currentThread()->loopLevel();
        if (m_isBusy &&
            loops <= m_loops) { // a step lets things happen; only in a dialog's own loop the next begins
            QTimer::singleShot(1, this, [this] { tick(); });
            return;
        }
        const QScopedValueRollback busy(m_isBusy, true);
        const QScopedValueRollback at(m_loops, loops);
        QTimer::singleShot(1, this, [this] { tick(); });
        if (!isAtEnd() && m_given.isEmpty())
            act(m_hand.step(m_clinic.window.get(), int(m_clinic.patients.size())));
        else if (!isAtEnd())
            act(m_given.at(m_place++));
        else if (loops > 1 || front(m_clinic.window.get()) != m_clinic.window.get())
            closeOne();
        else
            look();
    }

    void closeOne()
    {
        m_clinic.replies.isConfirmed = true; // yes, leave it
        QWidget* open = front(m_clinic.window.get());
        if (++m_closings > 100) {
            std::fprintf(stderr, "A dialog does not close: %s.\n", qPrintable(kindOf(open)));
            sayWhere();
            std::_Exit(1);
        }
        if (open != m_clinic.window.get())
            open->close();
    }

    void look()
    {
        m_closings = 0;
        paces::letPass(1'000);
        if (!m_clinic.window->isVisible())
            m_clinic.window->show();
        m_faults += faultsOf(m_clinic);
        m_faults += std::exchange(warnings, {});
        ++m_done;
        write(u"# %1"_s.arg(m_faults.isEmpty() ? u"well"_s : m_faults.join(u"\n# "_s)));
        if (!m_faults.isEmpty() || !m_given.isEmpty() || m_done >= m_sequences)
            QApplication::exit();
        else
            begin();
    }

    void act(const QString& line)
    {
        write(line);
        ++m_steps;
        m_clinic.replies.asks = 0;
        if (!m_clinic.window->isVisible())
            m_clinic.window->show();
        QWidget* window = m_clinic.window.get();
        const QString verb = line.section(u' ', 0, 0);
        const QString rest = line.section(u' ', 1);
        if (verb == u"pace"_s) {
            m_pace = Pace(static_cast<Pace::Kind>(rest.toInt()), 1);
        } else if (verb == u"key"_s) {
            strike(rest, window);
        } else if (verb == u"type"_s) {
            for (const QChar letter : rest) {
                strike(letter, window);
                m_pace.rest();
            }
        } else if (verb == u"click"_s || verb == u"double"_s || verb == u"right"_s) {
            press(line.split(u' '), window);
        } else if (verb == u"patient"_s) {
            if (front(window) == window)
                m_clinic.window->openPatient(m_clinic.patients.at(size_t(rest.toInt())));
        } else if (verb == u"answer"_s) {
            m_clinic.replies.isConfirmed = rest == u"yes"_s;
        } else if (verb == u"line"_s) {
            m_clinic.replies.text = rest.isEmpty() ? std::nullopt : std::optional(rest);
        } else if (verb == u"file"_s) {
            m_clinic.replies.file =
                rest.isEmpty() ? std::nullopt : std::optional(m_clinic.folder.filePath(rest));
        }
        m_pace.rest();
    }

    void write(const QString& line)
    {
        std::fprintf(m_file, "%s\n", line.toUtf8().constData());
        std::fflush(m_file);
    }

    Clinic m_clinic;
    Hand m_hand;
    int m_sequences;
    QStringList m_given; ///< steps to be played again
    qsizetype m_place = 0;
    std::FILE* m_file = nullptr;
    Pace m_pace{Pace::Kind::AtOnce};
    QStringList m_faults;
    int m_steps = 0;
    int m_done = 0;
    int m_closings = 0;
    bool m_isBusy = false;
    int m_loops = 0;
};

QStringList stepsIn(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        qFatal("The file %s cannot be read.", qPrintable(path));
    QStringList lines = QString::fromUtf8(file.readAll()).split(u'\n', Qt::SkipEmptyParts);
    lines.removeIf([](const QString& line) { return line.startsWith(u'#'); });
    return lines;
}

} // namespace

/// monkey [--seed N] [--sequences N] [--steps FILE]
int main(int count, char** words)
{
    const QApplication application(count, words);
    QCommandLineParser parser;
    parser.addOptions({{u"seed"_s, u"Of the first life."_s, u"number"_s, u"1"_s},
                       {u"sequences"_s, u"How many."_s, u"number"_s, u"100"_s},
                       {u"steps"_s, u"Plays the steps of a file again."_s, u"file"_s}});
    parser.process(application);
    NoBrowser noBrowser;
    for (const QString& scheme : {u"http"_s, u"https"_s})
        QDesktopServices::setUrlHandler(scheme, &noBrowser, "open");
    for (const int signal : {SIGSEGV, SIGABRT, SIGFPE, SIGALRM, SIGPROF})
        std::signal(signal, die);
    if (__sanitizer_set_death_callback != nullptr)
        __sanitizer_set_death_callback(sayWhere);
    qInstallMessageHandler(keepWarning);

    const quint32 first = parser.value(u"seed"_s).toUInt();
    const int wanted = parser.isSet(u"steps"_s) ? 1 : parser.value(u"sequences"_s).toInt();
    const QStringList given = parser.isSet(u"steps"_s) ? stepsIn(parser.value(u"steps"_s)) : QStringList();
    quint32 seed = first;
    for (int done = 0; done < wanted; ++seed) {
        limitTime();
        Life life(seed, std::min(sequencesOfLife, wanted - done), given);
        const QStringList faults = life.run();
        done += life.done();
        if (!faults.isEmpty()) {
            std::fprintf(
                stderr,
                "%s\nSeed %u, sequence %d. Play it again with: monkey --seed %u --sequences %d, or monkey "
                "--steps %s\n",
                qPrintable(faults.join(u'\n')), seed, life.done(), seed, life.done(), lifeFile.constData());
            return 1;
        }
    }
    std::printf("%d sequences, seeds %u to %u, no fault\n", wanted, first, seed - 1);
    return 0;
}

#include "test_monkey.moc"
