#include "app/session/importing.h"
#include "app/session/session.h"
#include "core/base/file.h"
#include "core/catalogue/reader.h"
#include "core/records/summary.h"
#include "core/storage/backup.h"
#include "core/storage/patients.h"
#include "core/storage/sealing.h"
#include "core/storage/visits.h"
#include "tests/support/findings_file.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <QDir>
#include <QElapsedTimer>
#include <QProcess>
#include <QRandomGenerator>

#include <cstdio>

using namespace Qt::StringLiterals;
using records::Opening;
using storage::Store;

namespace
{

/// How often each work is killed; `killed_at_work whole` does it 100 times.
int kills = 5;

constexpr int patientsBefore = 60;
constexpr int patientsImported = 40;

QDateTime now()
{
    return QDateTime(QDate(2026, 3, 1), QTime(9, 0), Qt::UTC);
}

/// Reads and writes with this code; plain where it is "-".
storage::Access accessWith(const QString& code)
{
    return {u"tester"_s, &now, {}, sealOf(code)};
}

base::Result<std::unique_ptr<session::Session>> openSession(const QString& path, const QString& code)
{
    return session::Session::open(path, findings_file::shipped(), accessWith(code), Opening::MustExist);
}

/// The one draft of the records.
records::VisitId draftIn(session::Session& session)
{
    const auto patients = *session.patients();
    for (const records::PatientSummary& patient : patients) {
        session.choosePatient(patient.id);
        for (const records::Visit& visit : session.visits()) {
            if (visit.state == records::VisitState::Draft)
                return visit.id;
        }
    }
    return {};
}

void say(const char* what)
{
    std::puts(what);
    std::fflush(stdout);
}

base::Result<void> import(session::Session& session)
{
    std::vector<findings_file::Cells> rows;
    for (int patient = 0; patient < patientsImported; ++patient) {
        for (int day = 1; day < 9; ++day)
            rows.push_back(findings_file::walk({{u"patient"_s, u"I-%1"_s.arg(patient)},
                                                {u"family"_s, u"Imported %1"_s.arg(patient)},
                                                {u"date"_s, u"2024-03-0%1"_s.arg(day)}}));
    }
    const auto patients =
        exchange::patientsFromCsv(findings_file::file(rows), findings_file::shipped(), now().date());
    if (!patients)
        return patients.error();
    say("begun");
    const auto done = session::importPatients(session, *patients, {u"Dr Serra"_s, {}, {}});
    return done ? base::Result<void>() : done.error();
}

/// The child: opens the records, says so, works, and says when it is done.
int work(const QString& kind, const QString& path, const QString& code)
{
    const auto session = openSession(path, code);
    if (!session)
        return 1;
    base::Result<void> done;
    if (kind == u"import"_s) {
        done = import(**session);
    } else if (kind == u"sign"_s) {
        const records::VisitId draft = draftIn(**session);
        say("begun");
        const auto isSigned = (*session)->signVisit(draft, {u"Dr Serra"_s, u"neurologist"_s, u"N-1"_s});
        done = isSigned ? base::Result<void>() : isSigned.error();
    } else if (kind == u"back up"_s) {
        say("begun");
        done = (*session)->backUp(path + u".backup"_s);
    } else {
        say("begun");
        done = (*session)->seal(*sealOf(kind), {});
    }
    if (done)
        say("done");
    return done ? 0 : 1;
}

/// What is told of the records after a kill.
struct Found {
    size_t patients = 0;
    size_t visits = 0;
    size_t signedVisits = 0;

    bool operator==(const Found&) const = default;
};

std::optional<Found> foundIn(const QString& path, const QString& code)
{
    const auto store = Store::open(path, accessWith(code), Opening::MustExist);
    const QStringList faults =
        store ? *(*store)->fileFaults() : QStringList(store.error().what.english() + store.error().detail);
    if (!faults.isEmpty()) {
        qInfo("%s", qPrintable(faults.join(u' ')));
        return std::nullopt;
    }
    Found found;
    const auto patients = *storage::Patients(**store).all();
    for (const records::PatientSummary& patient : patients) {
        ++found.patients;
        const auto visits = *storage::Visits(**store).ofPatient(patient.id);
        for (const records::Visit& visit : visits) {
            ++found.visits;
            found.signedVisits += visit.state == records::VisitState::Signed ? 1 : 0;
        }
    }
    return found;
}

/// Records with many patients, each with a signed visit, and one draft.
bool make(const QString& path)
{
    const auto session =
        session::Session::open(path, findings_file::shipped(), accessWith(u"-"_s), Opening::MayCreate);
    for (int i = 0; session && i < patientsBefore; ++i) {
        records::Patient patient;
        patient.family = u"Before %1"_s.arg(i);
        patient.recordNumber = u"B-%1"_s.arg(i);
        patient.notes = u"a note "_s.repeated(200);
        const auto saved = (*session)->savePatient(patient);
        if (!saved)
            return false;
        (*session)->choosePatient(saved->id);
        const auto visit = (*session)->startVisit(QDate(2026, 2, 1));
        records::Finding finding;
        finding.measure = u"toe-tapping"_s;
        finding.side = records::Side::Right;
        finding.value = values::Grade{1};
        const bool isStored =
            visit && (*session)->saveFinding(visit->id, finding) &&
            (i == 0 || (*session)->signVisit(visit->id, {u"Dr Serra"_s, u"neurologist"_s, u"N-1"_s}));
        if (!isStored)
            return false;
    }
    return bool(session);
}

} // namespace

class TestKilledAtWork : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatIsKilledLeavesTheOldOrTheNew_data()
    {
        QTest::addColumn<QString>("kind");
        QTest::addColumn<bool>("isSealed");
        for (const bool isSealed : {false, true}) {
            for (const QString& kind : {u"import"_s, u"sign"_s, u"back up"_s})
                QTest::addRow("%s, %s", qPrintable(kind), isSealed ? "sealed" : "plain") << kind << isSealed;
        }
        QTest::newRow("seal") << u"seal"_s << false;
    }

    void whatIsKilledLeavesTheOldOrTheNew()
    {
        QFETCH(QString, kind);
        QFETCH(bool, isSealed);
        if (!storage::canSeal() && (isSealed || kind == u"seal"_s))
            QSKIP("This build has the system's SQLite.");
        const QString code = sealing::Key::made().code().join(QString());
        const QString before = isSealed ? code : u"-"_s;
        const QString after = kind == u"seal"_s ? code : before;
        const QTemporaryDir folder;
        const QString pristine = folder.filePath(u"pristine"_s);
        QVERIFY(make(pristine));
        if (isSealed) {
            const auto store = Store::open(pristine, accessWith(u"-"_s), Opening::MustExist);
            QVERIFY(store && (*store)->seal(*sealOf(code), {}));
        }
        const auto old = foundIn(pristine, before);
        QVERIFY(old);
        const QDir place(folder.filePath(u"work"_s));
        const QString path = place.filePath(u"records"_s);

        std::optional<Found> done; ///< what an unhindered run leaves
        qint64 whole = 0;          ///< its time, µs
        QRandomGenerator random(20261130);
        int newFound = 0;
        int inTheMidst = 0;
        for (int kill = -1; kill < kills; ++kill) {
            QVERIFY(QDir(place).removeRecursively() && QDir(folder.path()).mkdir(u"work"_s));
            QVERIFY(QFile::copy(pristine, path));
            if (isSealed)
                QVERIFY(QFile::copy(pristine + u".keys"_s, path + u".keys"_s));
            QProcess child;
            child.start(QCoreApplication::applicationFilePath(),
                        {u"work"_s, kind == u"seal"_s ? code : kind, path, before});
            QVERIFY(child.waitForReadyRead());
            QElapsedTimer clock;
            clock.start();
            if (kill >= 0) {
                QThread::usleep(random.bounded(quint32(whole)));
                child.kill();
            } else {
                while (!child.peek(100).contains("done") && child.waitForReadyRead()) {
                }
                whole = clock.nsecsElapsed() / 1000;
            }
            QVERIFY(child.waitForFinished());
            const bool isAcknowledged = child.readAllStandardOutput().contains("done");
            QVERIFY(kill >= 0 || isAcknowledged);

            const bool isSealedNow = sealing::isSealed(path);
            QVERIFY(isSealedNow == isSealed || kind == u"seal"_s);
            QVERIFY(!isSealedNow || QFile::exists(path + u".keys"_s));
            const QString leftover = path + u".backup.unfinished"_s;
            QVERIFY(!isSealed || QFileInfo(leftover).size() == 0 || sealing::isSealed(leftover));
            inTheMidst += QFile::exists(leftover) || QFile::exists(path + u".unfinished"_s) ? 1 : 0;
            const auto found = foundIn(path, isSealedNow ? code : u"-"_s);
            QVERIFY2(found, qPrintable(u"kill %1"_s.arg(kill)));
            if (kill < 0)
                done = found;
            QVERIFY(*found == *old || *found == *done);
            QVERIFY(!isAcknowledged || *found == *done);
            QVERIFY(!QFile::exists(path + u".unfinished"_s)); // who opens them to write clears away
            const bool isNew = kind == u"seal"_s      ? isSealedNow
                               : kind == u"back up"_s ? QFile::exists(path + u".backup"_s)
                                                      : *found != *old;
            QVERIFY(!isAcknowledged || isNew);
            newFound += isNew ? 1 : 0;
            if (kind == u"back up"_s && isNew)
                QVERIFY(foundIn(path + u".backup"_s, before) == old);
            if (kind == u"back up"_s && !isNew) {
                const auto again = openSession(path, before);
                QVERIFY(again && (*again)->backUp(path + u".backup"_s)); // what was left is no hindrance
            }
        }
        QVERIFY(*done != *old || kind == u"seal"_s || kind == u"back up"_s);
        qInfo("%d kills within %lld µs: %d left the new state, %d something unfinished", kills, whole,
              newFound - 1, inTheMidst);
    }
};

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    const QStringList arguments = QCoreApplication::arguments();
    if (arguments.size() == 5 && arguments[1] == u"work"_s)
        return work(arguments[2], arguments[3], arguments[4]);
    const bool isWhole = arguments.value(1) == u"whole"_s;
    kills = isWhole ? 100 : kills;
    TestKilledAtWork test;
    return QTest::qExec(&test, isWhole ? 1 : argc, argv);
}

#include "test_killed_at_work.moc"
