#include "core/records/check.h"
#include "core/storage/patients.h"
#include "core/storage/sealing.h"
#include "core/storage/soundness.h"
#include "core/storage/visits.h"
#include "tests/support/examples.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <QProcess>
#include <QRandomGenerator>

#include <cstdio>

using namespace Qt::StringLiterals;
using records::Side;
using storage::Store;

namespace
{

/// How often it is killed; `killed_while_typing whole` does it 100 times.
int kills = 40;

QDateTime now()
{
    return QDateTime(QDate(2026, 3, 1), QTime(9, 0), Qt::UTC);
}

/// With the code of sealed records; plain ones have none.
base::Result<std::unique_ptr<Store>> openRecords(const QString& path, const QString& code)
{
    return Store::open(path, {u"typist"_s, now, {}, sealOf(code)}, records::Opening::MustExist);
}

/// What is saved at the nth key: one of three fields in turn, with trials, exceptions and a note that must
/// all come back together.
records::Finding typed(int n)
{
    const auto catalogue = examples::catalogue();
    const std::array fields = {std::pair(u"nine-hole-peg"_s, Side::Right),
                               std::pair(u"nine-hole-peg"_s, Side::Left),
                               std::pair(u"gait-speed-comfortable"_s, Side::None)};
    const auto& [measure, side] = fields[size_t(n) % fields.size()];
    const double trial = side == Side::None ? 0.5 + n % 100 / 100.0 : 20 + n % 100;
    records::Finding finding;
    finding.measure = measure;
    finding.side = side;
    finding.trials.assign(size_t(1 + n % 4), trial);
    finding.value = records::valueOfTrials(finding.trials, *catalogue.measure(measure));
    finding.note = QString::number(n);
    if (n % 2 == 0)
        finding.exceptions = {{u"aid"_s, u"none"_s}};
    return finding;
}

/// The writer: saves for ever and says the number of each save on standard output once it is acknowledged.
int writeUntilKilled(const QString& path, const records::VisitId& visit, int from, const QString& code)
{
    const auto store = openRecords(path, code);
    if (!store)
        return 1;
    storage::Visits visits(**store);
    for (int n = from; visits.saveFinding(visit, typed(n)); ++n) {
        std::printf("%d\n", n);
        std::fflush(stdout);
    }
    return 1;
}

/// The number of the newest save in the visit; −1 while there is none.
int newestSave(const records::Visit& visit)
{
    int newest = -1;
    for (const records::Finding& finding : visit.findings)
        newest = std::max(newest, finding.note.toInt());
    return newest;
}

} // namespace

class TestKilledWhileTyping : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void noAcknowledgedSaveIsLost_data()
    {
        QTest::addColumn<bool>("isSealed");
        QTest::newRow("plain") << false;
        QTest::newRow("sealed") << true;
    }

    void noAcknowledgedSaveIsLost()
    {
        QFETCH(bool, isSealed);
        if (isSealed && !storage::canSeal())
            QSKIP("This build has the system's SQLite.");
        const sealing::Seal seal = quickSeal();
        const QString code = isSealed ? seal.key.code().join(QString()) : u"-"_s;
        RecordsFile file(isSealed ? std::optional(seal) : std::nullopt);
        const auto catalogue = examples::catalogue();
        records::Patient patient = fullPatient();
        patient.population.clear();
        patient = *storage::Patients(file.store()).save(patient);
        records::Visit visit;
        visit.patient = patient.id;
        visit.day = QDate(2026, 3, 1);
        visit = *storage::Visits(file.store()).add(visit);
        file.close();

        QRandomGenerator random(20260301);
        int saved = -1; ///< the newest save known to be in the file
        int killedBusy = 0;
        for (int kill = 0; kill < kills; ++kill) {
            QProcess writer;
            writer.start(QCoreApplication::applicationFilePath(),
                         {u"write"_s, file.path(), visit.id.text, QString::number(saved + 1), code});
            QVERIFY(writer.waitForStarted());
            // Every tenth is killed while it still opens the file, the others while they save.
            if (kill % 10 != 0)
                QVERIFY(writer.waitForReadyRead());
            QThread::usleep(random.bounded(40'000U));
            writer.kill();
            QVERIFY(writer.waitForFinished());
            QCOMPARE(writer.exitStatus(), QProcess::CrashExit);
            const QList<QByteArray> lines = writer.readAllStandardOutput().split('\n');
            const int acknowledged = lines.size() > 1 ? lines[lines.size() - 2].toInt() : saved;
            killedBusy += acknowledged > saved ? 1 : 0;

            const auto store = openRecords(file.path(), code);
            QVERIFY2(store, store ? "" : qPrintable(store.error().what.english() + store.error().detail));
            const auto kept = storage::Visits(**store).withId(visit.id);
            QVERIFY(kept);
            saved = newestSave(*kept);
            QVERIFY2(
                saved == acknowledged || saved == acknowledged + 1,
                qPrintable(u"kill %1: acknowledged %2, found %3"_s.arg(kill).arg(acknowledged).arg(saved)));
            for (const records::Finding& finding : kept->findings)
                QCOMPARE(finding, typed(finding.note.toInt()));
            QCOMPARE(kept->findings.size(), size_t(std::min(saved + 1, 3)));
            QCOMPARE(*storage::faults(**store, catalogue, now().date()), QStringList());
        }
        QVERIFY(killedBusy >= kills / 2);
        qInfo("%d saves, %d kills", saved + 1, kills);
    }
};

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    const QStringList arguments = QCoreApplication::arguments();
    if (arguments.size() == 6 && arguments[1] == u"write"_s)
        return writeUntilKilled(arguments[2], {arguments[3]}, arguments[4].toInt(), arguments[5]);
    const bool isWhole = arguments.value(1) == u"whole"_s;
    kills = isWhole ? 100 : kills;
    TestKilledWhileTyping test;
    return QTest::qExec(&test, isWhole ? 1 : argc, argv);
}

#include "test_killed_while_typing.moc"
