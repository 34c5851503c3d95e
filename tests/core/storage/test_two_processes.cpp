#include "core/storage/patients.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <QApplication>
#include <QFileDialog>
#include <QMimeDatabase>
#include <QProcess>
#include <QRandomGenerator>
#include <QSet>

#include <array>
#include <cstdio>

using namespace Qt::StringLiterals;
using records::Opening;
using storage::Store;

namespace
{

int rounds = 12; ///< two processes are killed in each; tests/bench/run two-processes does 200

QDateTime now()
{
    return QDateTime(QDate(2026, 3, 1), QTime(9, 0), Qt::UTC);
}

base::Result<std::unique_ptr<Store>> openRecords(const QString& path, Opening opening)
{
    return Store::open(path, {u"typist"_s, now}, opening);
}

void say(const QString& line)
{
    std::puts(qPrintable(line));
    std::fflush(stdout);
}

/// What a person does who is asked where to save a letter, and what the dialog does behind them.
void lookIntoTheFolderOf(const QString& path)
{
    QFileDialog dialog;
    dialog.setOption(QFileDialog::DontUseNativeDialog);
    dialog.setDirectory(QFileInfo(path).path());
    dialog.show();
    for (int i = 0; i < 5; ++i)
        QApplication::processEvents(QEventLoop::AllEvents, 5);
    for (const QString& ending : {u""_s, u"-wal"_s, u"-shm"_s})
        (void)QMimeDatabase().mimeTypeForFile(path + ending);
}

/// Writes for a while whenever it has the right to, and reads when it has not. The one stays long and looks
/// into the folder in between, the other comes and goes. Says what was saved once it is acknowledged.
int workUntilKilled(const QString& path, const QString& name)
{
    const bool staysLong = name.endsWith(u'0');
    int saved = 0;
    while (true) {
        if (const auto store = openRecords(path, Opening::MustExist); store) {
            storage::Patients patients(**store);
            for (int n = 0; n < (staysLong ? 200 : 3); ++n) {
                records::Patient patient;
                patient.recordNumber = u"%1-%2"_s.arg(name).arg(++saved);
                if (const auto kept = patients.save(patient); !kept) {
                    say(u"failed "_s + kept.error().detail);
                    return 1;
                }
                say(u"saved "_s + patient.recordNumber);
                if (staysLong && n % 20 == 3)
                    lookIntoTheFolderOf(path);
            }
        } else if (store.error().kind != base::ErrorKind::Refused) {
            say(u"failed "_s + store.error().what.english());
            return 1;
        }
        if (const auto reader = openRecords(path, Opening::ToRead)) {
            const auto all = storage::Patients(**reader).all();
            say(all ? u"read %1"_s.arg(all->size()) : u"failed "_s + all.error().detail);
        }
    }
}

/// One of the two, and what it has said.
struct Worker {
    QProcess process;
    QStringList said;

    void start(const QString& path, const QString& name)
    {
        process.start(QCoreApplication::applicationFilePath(), {u"work"_s, path, name});
    }
    void listen()
    {
        said += QString::fromUtf8(process.readAllStandardOutput()).split(u'\n', Qt::SkipEmptyParts);
    }
    qsizetype saves() const { return said.filter(u"saved "_s).size(); }
    bool end()
    {
        process.kill();
        return process.waitForFinished() && process.exitStatus() == QProcess::CrashExit;
    }
};

} // namespace

class TestTwoProcesses : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void nothingAcknowledgedIsLostBetweenTwo()
    {
        RecordsFile file;
        file.close();
        QRandomGenerator random(20260302);
        QSet<QString> acknowledged;
        int readings = 0;
        for (int round = 0; round < rounds; ++round) {
            std::array<Worker, 2> workers;
            for (size_t i = 0; i < workers.size(); ++i)
                workers[i].start(file.path(), u"%1.%2"_s.arg(round).arg(i));
            // The one who writes has saved a few, the other is about to read or to take over.
            while (workers[0].saves() + workers[1].saves() < 40) {
                for (Worker& worker : workers) {
                    (void)worker.process.waitForReadyRead(100);
                    worker.listen();
                    QCOMPARE(worker.process.state(), QProcess::Running);
                }
            }
            QThread::usleep(random.bounded(120'000U));
            Worker& first = workers[random.bounded(2U)];
            QVERIFY(first.end());
            QThread::usleep(random.bounded(120'000U)); // the other may go on alone
            for (Worker& worker : workers) {
                QVERIFY(&worker == &first || worker.end());
                worker.listen();
                for (const QString& line : worker.said) {
                    QVERIFY2(!line.startsWith(u"failed"_s), qPrintable(line));
                    readings += line.startsWith(u"read "_s) ? 1 : 0;
                    if (line.startsWith(u"saved "_s))
                        acknowledged += line.section(u' ', 1);
                }
            }

            const auto store = openRecords(file.path(), Opening::MustExist);
            QVERIFY2(store, store ? "" : qPrintable(store.error().what.english() + store.error().detail));
            QVERIFY((*store)->fileFaults()->isEmpty());
            QSet<QString> kept;
            const auto all = storage::Patients(**store).all();
            QVERIFY(all);
            for (const records::PatientSummary& patient : *all)
                kept += patient.recordNumber;
            const QSet<QString> lost = acknowledged - kept;
            QVERIFY2(
                lost.isEmpty(),
                qPrintable(
                    u"round %1: %2 of %3 are lost"_s.arg(round).arg(lost.size()).arg(acknowledged.size())));
        }
        QVERIFY(acknowledged.size() >= 40 * rounds && readings > 0);
        qInfo("%lld acknowledged saves and %d readings in %d rounds", qint64(acknowledged.size()), readings,
              rounds);
    }
};

int main(int argc, char** argv)
{
    const QApplication application(argc, argv);
    const QStringList arguments = QCoreApplication::arguments();
    if (arguments.size() == 4 && arguments[1] == u"work"_s)
        return workUntilKilled(arguments[2], arguments[3]);
    if (arguments.size() == 3 && arguments[1] == u"rounds"_s) {
        rounds = arguments[2].toInt();
        argc = 1;
    }
    TestTwoProcesses test;
    return QTest::qExec(&test, argc, argv);
}

#include "test_two_processes.moc"
