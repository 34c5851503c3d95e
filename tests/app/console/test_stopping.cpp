#include "tests/app/console/program.h"
#include "tests/support/test_support.h"

#include <QDir>

#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <memory>
#include <poll.h>
#include <unistd.h>

using namespace Qt::StringLiterals;

namespace test_stopping
{

using findings_file::walk;
using program::Place;

/// The program with a terminal to tell what it does, as a person sees it.
class AtTerminal
{
public:
    explicit AtTerminal(const QStringList& arguments)
    {
        m_ours = posix_openpt(O_RDWR | O_NOCTTY);
        if (grantpt(m_ours) != 0 || unlockpt(m_ours) != 0)
            return;
        const int theirs = open(ptsname(m_ours), O_RDWR | O_NOCTTY);
        m_process.setChildProcessModifier([theirs] { dup2(theirs, STDERR_FILENO); });
        m_process.start(places::program(), arguments);
        m_process.closeWriteChannel();
        m_process.waitForStarted();
        close(theirs);
    }
    ~AtTerminal() { close(m_ours); }

    /// Whether this is said before the program ends.
    bool hears(const QString& words)
    {
        while (!m_said.contains(words)) {
            if (!readMore())
                return false;
        }
        return true;
    }
    void signal(int number) const { kill(pid_t(m_process.processId()), number); }
    int ended()
    {
        while (readMore()) {
        }
        return m_process.waitForFinished(60'000) && m_process.exitStatus() == QProcess::NormalExit
                   ? m_process.exitCode()
                   : -1;
    }
    const QString& said() const { return m_said; }

private:
    bool readMore()
    {
        char bytes[4096];
        pollfd wait = {m_ours, POLLIN, 0};
        const auto count = poll(&wait, 1, 60'000) > 0 ? read(m_ours, bytes, sizeof bytes) : -1;
        if (count > 0)
            m_said += QString::fromUtf8(bytes, count);
        return count > 0;
    }

    QProcess m_process;
    int m_ours = -1;
    QString m_said;
};

/// What a terminal shows at last of each line: what is written behind a return stands over what was there.
QStringList linesSeen(const QString& said)
{
    QStringList lines;
    for (const QString& line : QString(said).replace(u"\r\n"_s, u"\n"_s).split(u'\n')) {
        QString seen;
        for (const QString& part : line.split(u'\r'))
            seen = part + seen.mid(part.size());
        lines += seen.trimmed();
    }
    lines.removeAll(QString());
    return lines;
}

/// Findings of so many people, four visits each.
QString findings(const Place& place, int people)
{
    std::vector<findings_file::Cells> rows;
    for (int patient = 0; patient < people; ++patient) {
        for (const auto* day : {"2024-03-01", "2024-06-01", "2024-09-01", "2025-01-15"})
            rows.push_back(
                walk({{u"patient"_s, u"S-%1"_s.arg(patient)}, {u"date"_s, QString::fromLatin1(day)}}));
    }
    return place.file(rows);
}

/// An import that takes so long that these words are heard, on a machine of any speed.
struct LongImport {
    std::unique_ptr<Place> place;
    std::unique_ptr<AtTerminal> program;

    explicit LongImport(const QString& words)
    {
        constexpr int most = 20'000; // an import is refused from 100 MB on
        for (int people = 300; people < most; people *= 2) {
            place = std::make_unique<Place>();
            program = std::make_unique<AtTerminal>(
                QStringList{u"import"_s, place->records, findings(*place, people)});
            if (program->hears(words))
                return;
        }
        program = nullptr;
    }
};

/// Work that takes long, at a terminal.
class TestStopping : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aTerminalIsToldHowFarItIsAndTheLineGoes()
    {
        const LongImport import(u" left. Ctrl+C stops it."_s);
        QVERIFY(import.program);
        QVERIFY(import.program->said().contains(u" percent"_s));
        QCOMPARE(import.program->ended(), 0);
        QCOMPARE(linesSeen(import.program->said()),
                 QStringList{u"The new records are not sealed: whoever gets hold of the file can read it. "
                             "--password-file seals them, or the window does."_s});
    }

    void whatIsStoppedChangesNothing_data()
    {
        QTest::addColumn<int>("wish");
        QTest::newRow("Ctrl+C") << SIGINT;
        QTest::newRow("the end of the session") << SIGTERM;
        QTest::newRow("a closed terminal") << SIGHUP;
    }

    void whatIsStoppedChangesNothing()
    {
        QFETCH(const int, wish);
        const LongImport import(u"Taking the findings: "_s);
        QVERIFY(import.program);
        import.program->signal(wish);
        QCOMPARE(import.program->ended(), 1);
        QCOMPARE(linesSeen(import.program->said()),
                 QStringList{u"This was stopped; the records are as they were."_s});
        QCOMPARE(QDir(import.place->folder.path()).entryList(QDir::Files | QDir::Hidden),
                 QStringList{u"findings.csv"_s});
    }

    void whereNobodySeesItNothingIsTold()
    {
        const Place place;
        QCOMPARE(program::start({u"import"_s, place.records, findings(place, 300)}).err.count(u'\n'), 1);
        const program::Outcome written =
            program::start({u"export"_s, place.records, place.path(u"out.csv"_s)});
        QCOMPARE(written.code, 0);
        QCOMPARE(written.err, QString());
    }
};

HOUSE_TEST(TestStopping)

} // namespace test_stopping

#include "test_stopping.moc"
