#include "app/session/importing.h"
#include "core/base/file.h"
#include "core/catalogue/reader.h"
#include "core/exchange/happenings_csv.h"
#include "core/records/summary.h"
#include "core/storage/backup.h"
#include "core/storage/happenings.h"
#include "core/storage/patients.h"
#include "core/storage/sealing.h"
#include "core/storage/visits.h"
#include "tests/support/findings_file.h"
#include "tests/support/places.h"
#include "tests/support/test_support.h"

#include <QTemporaryDir>

#include <dlfcn.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace Qt::StringLiterals;
using records::Opening;
using records::Side;
using storage::Store;

namespace
{

/// Whether every single call fails once (`failing_calls whole`, minutes), or a dozen of each kind of work.
bool isWhole = false;

QDateTime now()
{
    return QDateTime(QDate(2026, 3, 1), QTime(9, 0), Qt::UTC);
}

const storage::Access tester{u"tester"_s, &now};

/// What seals the records of this test. The file of keys opens with no password, which would take a second.
const sealing::Seal& seal()
{
    static const sealing::Seal made{sealing::Key::made(), "{}"};
    return made;
}

/// Opens the file as it is found.
storage::Access accessTo(const QString& path)
{
    storage::Access access = tester;
    if (sealing::isSealed(path))
        access.seal = seal();
    return access;
}

const records::PatientId ada{u"11111111-0000-4000-8000-000000000001"_s};
const records::PatientId fern{u"11111111-0000-4000-8000-000000000002"_s};
const records::VisitId draft{u"22222222-0000-4000-8000-000000000004"_s};

/// The shim this program was started with (tests/support/failing_calls.c).
template <class Function>
Function* shim(const char* name)
{
    return reinterpret_cast<Function*>(dlsym(RTLD_DEFAULT, name));
}

const catalogue::Catalogue& book()
{
    static const catalogue::Catalogue catalogue = *catalogue::readCatalogue(u":/catalogue"_s);
    return catalogue;
}

/// The records of a test, as a value: everything in them that is not when it was read.
struct Held {
    size_t patients = 0;
    size_t visitsOfAll = 0;
    size_t findingsOfAll = 0;
    std::vector<records::Visit> visits; ///< of the patients who were there before
    std::vector<records::Happening> happenings;

    bool operator==(const Held&) const = default;
};

std::optional<Held> heldIn(const QString& path)
{
    const auto store = Store::open(path, accessTo(path), Opening::MustExist);
    const QStringList faults =
        store ? *(*store)->fileFaults() : QStringList(store.error().what.english() + store.error().detail);
    if (!faults.isEmpty()) {
        qInfo("%s", qPrintable(faults.join(u' ').replace(u'\n', u'|')));
        return std::nullopt;
    }
    Held held;
    held.happenings = *storage::Happenings(**store).newest();
    const auto all = *storage::Patients(**store).all();
    held.patients = all.size();
    for (const records::PatientSummary& patient : all) {
        const auto visits = *storage::Visits(**store).ofPatient(patient.id);
        for (const records::Visit& visit : visits) {
            ++held.visitsOfAll;
            held.findingsOfAll += visit.findings.size();
            if (patient.id == ada || patient.id == fern)
                held.visits.push_back(visit);
        }
    }
    return held;
}

enum class From { Older, Plain, Sealed };

/// A fixture of the ninth schema, or one that was brought up to date and may be sealed, at this path.
bool make(const QString& path, From from)
{
    const bool isMade = QFile::copy(places::inSource(u"tests/data/schema-9.aplomb"_s), path) &&
                        QFile::setPermissions(path, QFile::ReadOwner | QFile::WriteOwner);
    if (isMade && from != From::Older) {
        const auto store = Store::open(path, tester, Opening::MustExist);
        return store && QFile::remove(path + u".version-9"_s) &&
               (from == From::Plain || (*store)->seal(seal(), {}));
    }
    return isMade;
}

/// What a child does with the records; the shim is armed when it begins.
using Work = base::Result<void> (*)(const QString& path, const std::function<void()>& begin);

base::Result<void> saveField(const QString& path, const std::function<void()>& begin)
{
    const auto store = Store::open(path, accessTo(path), Opening::MustExist);
    if (!store)
        return store.error();
    records::Finding finding;
    finding.measure = u"nine-hole-peg"_s;
    finding.side = Side::Right;
    finding.value = values::Quantity{24.5, values::Unit::Second};
    finding.trials = {24, 25};
    finding.exceptions = {{u"aid"_s, u"cane"_s}};
    begin();
    return storage::Visits(**store).saveFinding(draft, finding);
}

base::Result<void> importFindings(const QString& path, const std::function<void()>& begin)
{
    const auto session = session::Session::open(path, book(), accessTo(path), Opening::MustExist);
    if (!session)
        return session.error();
    const auto patients =
        exchange::patientsFromCsv(findings_file::file({findings_file::walk()}), book(), now().date());
    if (!patients)
        return base::Error{base::ErrorKind::Invalid, base::said("The example is not read."), {}};
    begin();
    const auto done = session::importPatients(**session, *patients, {u"Dr Serra"_s, {}, {}});
    return done ? base::Result<void>() : done.error();
}

base::Result<void> readEvents(const QString& path, const std::function<void()>& begin)
{
    const auto session = session::Session::open(path, book(), accessTo(path), Opening::MustExist);
    if (!session)
        return session.error();
    const QString file = path + u".events"_s;
    if (auto written =
            base::write("patient,kind,from,until,injury,words,uid\n"
                        "K-1,fall,2026-02-01,,yes,from the stool,33333333-0000-4000-8000-000000000001\n"
                        "K-1,relapse,2026-02-02,2026-02-20,,,33333333-0000-4000-8000-000000000002\n",
                        file);
        !written)
        return written;
    begin();
    const auto done = (*session)->readHappenings(file);
    return done ? base::Result<void>() : done.error();
}

base::Result<void> bringUpToDate(const QString& path, const std::function<void()>& begin)
{
    begin();
    const auto store = Store::open(path, tester, Opening::MustExist);
    return store ? base::Result<void>() : store.error();
}

base::Result<void> backUp(const QString& path, const std::function<void()>& begin)
{
    const auto store = Store::open(path, accessTo(path), Opening::MustExist);
    if (!store)
        return store.error();
    begin();
    return storage::backUp(**store, path + u".backup"_s);
}

base::Result<void> sealThem(const QString& path, const std::function<void()>& begin)
{
    const auto store = Store::open(path, tester, Opening::MustExist);
    if (!store)
        return store.error();
    begin();
    return (*store)->seal(seal(), {});
}

/// How it ended: 0 done, 1 refused in one sentence, 2 refused in words that are none.
int worked(Work work, const QString& path, long at, int error, bool lasts, long& calls)
{
    int ends[2] = {};
    if (pipe(ends) != 0)
        return 3;
    const pid_t child = fork();
    if (child == 0) {
        auto* arm = shim<void(long, int, int)>("arm_failing_calls");
        const auto done = work(path, [&] { arm(at, error, lasts ? 1 : 0); });
        const long counted = shim<long()>("counted_calls")();
        arm(0, 0, 0);
        if (::write(ends[1], &counted, sizeof counted) != ssize_t(sizeof counted))
            _exit(3);
        const QString words = done ? QString() : done.error().what.english();
        _exit(done ? 0 : words.endsWith(u'.') && words.size() > 10 && words.size() < 200 ? 1 : 2);
    }
    int status = 0;
    waitpid(child, &status, 0);
    close(ends[1]);
    if (::read(ends[0], &calls, sizeof calls) != ssize_t(sizeof calls))
        calls = -1;
    close(ends[0]);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 4;
}

} // namespace

Q_DECLARE_METATYPE(Work)
Q_DECLARE_METATYPE(From)

class TestFailingCalls : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whateverFailsTheRecordsAreAsBeforeOrAsWished_data()
    {
        QTest::addColumn<Work>("work");
        QTest::addColumn<From>("from");
        QTest::addColumn<bool>("isFull");
        for (const bool isFull : {false, true}) {
            const char* kind = isFull ? "disk full" : "one call fails";
            QTest::addRow("save, %s", kind) << &saveField << From::Plain << isFull;
            QTest::addRow("save sealed, %s", kind) << &saveField << From::Sealed << isFull;
            QTest::addRow("import, %s", kind) << &importFindings << From::Plain << isFull;
            QTest::addRow("read events, %s", kind) << &readEvents << From::Plain << isFull;
            QTest::addRow("bring up to date, %s", kind) << &bringUpToDate << From::Older << isFull;
            QTest::addRow("back up, %s", kind) << &backUp << From::Plain << isFull;
            QTest::addRow("back up sealed, %s", kind) << &backUp << From::Sealed << isFull;
            QTest::addRow("seal, %s", kind) << &sealThem << From::Plain << isFull;
        }
    }

    void whateverFailsTheRecordsAreAsBeforeOrAsWished()
    {
        QFETCH(Work, work);
        QFETCH(From, from);
        QFETCH(bool, isFull);
        if (!storage::canSeal() && (from == From::Sealed || work == &sealThem))
            QSKIP("This build has the system's SQLite.");
        const bool isSealed = from == From::Sealed;
        const QTemporaryDir folder;
        const QString pristine = folder.filePath(u"pristine"_s);
        QVERIFY(make(pristine, from));
        const QString path = folder.filePath(u"work/records"_s);
        const auto anew = [&] {
            return QDir(folder.filePath(u"work"_s)).removeRecursively() &&
                   QDir(folder.path()).mkdir(u"work"_s) && QFile::copy(pristine, path) &&
                   (!isSealed || QFile::copy(pristine + u".keys"_s, path + u".keys"_s));
        };
        QVERIFY(anew());
        const auto before = heldIn(path);
        QVERIFY(before);
        QVERIFY(anew());
        long calls = 0;
        QCOMPARE(worked(work, path, 0, 0, false, calls), 0);
        const auto after = heldIn(path);
        QVERIFY(after);

        int refused = 0;
        long last = calls;
        const long step = isWhole ? 1 : std::max(1L, last / 12);
        for (long at = 1; at <= last; at += step) {
            QVERIFY(anew());
            const int ended = worked(work, path, at, isFull ? ENOSPC : EIO, isFull, calls);
            const std::string when = "call " + std::to_string(at);
            QVERIFY2(ended == 0 || ended == 1, (when + " ended with " + std::to_string(ended)).c_str());
            refused += ended;
            const auto found = heldIn(path);
            QVERIFY2(found, when.c_str());
            QVERIFY2(*found == *before || *found == *after, when.c_str());
            QVERIFY2(ended == 1 || *found == *after, when.c_str());
            const bool isBackUp = work == &backUp;
            QVERIFY2(QFile::exists(path + u".backup"_s) == (isBackUp && ended == 0), when.c_str());
            QVERIFY2(from == From::Sealed || work != &sealThem || ended == 1 || sealing::isSealed(path),
                     when.c_str());
            const QStringList left = QDir(folder.filePath(u"work"_s)).entryList(QDir::Files | QDir::Hidden);
            QVERIFY2(left.filter(u"unfinished"_s).isEmpty(), qPrintable(left.join(u' ')));
        }
        QVERIFY(refused > 0);
        qInfo("%ld calls, every %ldth failed, %d refused in one sentence", last, step, refused);
    }
};

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    if (shim<void(long, int, int)>("arm_failing_calls") ==
        nullptr) { // once more, with the shim before everything
        qputenv("LD_PRELOAD", APLOMB_FAILING_CALLS);
        qputenv("ASAN_OPTIONS", "verify_asan_link_order=0");
        execv("/proc/self/exe", argv);
        return 1;
    }
    qunsetenv("LD_PRELOAD");
    isWhole = argc == 2 && qstrcmp(argv[1], "whole") == 0;
    TestFailingCalls test;
    return QTest::qExec(&test, isWhole ? 1 : argc, argv);
}

#include "test_failing_calls.moc"
