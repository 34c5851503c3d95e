#include "core/storage/migrations.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/store.h"
#include "core/storage/transaction.h"
#include "core/storage/visits.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <QMimeDatabase>
#include <QSqlQuery>

#include <csignal>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

using namespace Qt::StringLiterals;

namespace test_store
{

using base::ErrorKind;
using records::Opening;
using storage::Store;

constexpr auto ownerOnly = QFile::ReadOwner | QFile::WriteOwner | QFile::ReadUser | QFile::WriteUser;

const storage::Access tester{u"tester"_s, [] { return QDateTime(QDate(2026, 3, 1), QTime(8, 0), Qt::UTC); }};

/// The kind of error that keeps the file from opening. Fails the test when it opens.
std::optional<ErrorKind> refusal(const QString& path, Opening opening = Opening::MustExist)
{
    const auto opened = Store::open(path, tester, opening);
    if (opened || opened.error().what.english().isEmpty() || !opened.error().what.english().endsWith(u'.'))
        return std::nullopt;
    return opened.error().kind;
}

void write(const QString& path, const QByteArray& bytes)
{
    QFile file(path);
    QVERIFY(file.open(QIODevice::WriteOnly));
    QCOMPARE(file.write(bytes), bytes.size());
}

QByteArray bytesOf(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

/// Runs statements in an SQLite file, as another program would.
void sqlite(const QString& path, const QStringList& statements)
{
    {
        auto database = QSqlDatabase::addDatabase(u"QSQLITE"_s, u"another program"_s);
        database.setDatabaseName(path);
        QVERIFY(database.open());
        for (const QString& statement : statements) {
            QSqlQuery query(database);
            QVERIFY2(query.exec(statement), qPrintable(query.lastError().text()));
        }
        database.close();
    }
    QSqlDatabase::removeDatabase(u"another program"_s);
}

QString lockOf(const QString& path)
{
    const QFileInfo file(path);
    return u"%1/.%2.lock"_s.arg(file.path(), file.fileName());
}

QStringList everythingIn(const QString& folder)
{
    return QDir(folder).entryList(QDir::Files | QDir::Hidden | QDir::System, QDir::Name);
}

/// How many locks of open files the kernel knows on the database and its shared memory.
int locksOn(const QString& path)
{
    int count = 0;
    const QByteArray all = bytesOf(u"/proc/locks"_s);
    for (const QString& ending : {u""_s, u"-shm"_s}) {
        struct stat found = {};
        if (stat((path + ending).toLocal8Bit().constData(), &found) != 0)
            continue;
        for (const QByteArray& line : all.split('\n'))
            count += line.contains("OFDLCK") &&
                     line.contains(':' + QByteArray::number(quint64(found.st_ino)) + ' ');
    }
    return count;
}

/// While it lasts no file grows beyond so many bytes, as on a full disk.
struct LargestFile {
    explicit LargestFile(qint64 bytes)
    {
        std::signal(SIGXFSZ, SIG_IGN);
        getrlimit(RLIMIT_FSIZE, &before);
        const rlimit less{rlim_t(bytes), before.rlim_max};
        setrlimit(RLIMIT_FSIZE, &less);
    }
    ~LargestFile() { setrlimit(RLIMIT_FSIZE, &before); }

    rlimit before = {};
};

std::vector<storage::Migration> firstOf(std::vector<storage::Migration> chain, size_t count)
{
    chain.resize(count);
    return chain;
}

class TestStore : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aNewFileIsReadableByItsOwnerOnly()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"clinic/of/ours/records.aplomb"_s);
        const auto store = Store::open(path, tester, Opening::MayCreate);
        QVERIFY(store);
        QVERIFY(storage::Patients(**store).save(fullPatient()));

        for (const QString& suffix : {u""_s, u"-wal"_s, u"-shm"_s})
            QCOMPARE(QFile::permissions(path + suffix), ownerOnly);
        for (const QString& made : {u"clinic"_s, u"clinic/of"_s, u"clinic/of/ours"_s})
            QCOMPARE(QFile::permissions(folder.filePath(made)), ownerOnly | QFile::ExeOwner | QFile::ExeUser);
        QCOMPARE(QDir(folder.filePath(u"clinic/of/ours"_s)).entryList(QDir::Files).size(), 3);
    }

    void aFileOpenToOthersIsClosedToThem()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"records"_s);
        QVERIFY(Store::open(path, tester, Opening::MayCreate));
        QVERIFY(QFile::setPermissions(path, ownerOnly | QFile::ReadGroup | QFile::ReadOther));
        const auto store = Store::open(path, tester, Opening::MustExist);
        QVERIFY(store);
        QVERIFY(storage::Patients(**store).save(fullPatient()));
        for (const QString& suffix : {u""_s, u"-wal"_s, u"-shm"_s})
            QCOMPARE(QFile::permissions(path + suffix), ownerOnly);
    }

    void aNewFileHoldsAnEmptyClinic()
    {
        const QTemporaryDir folder;
        const auto store = Store::open(folder.filePath(u"records"_s), tester, Opening::MayCreate);
        QVERIFY(store);
        QCOMPARE(*(*store)->clinic(), records::Clinic{});
        QVERIFY(storage::Patients(**store).all()->empty());
    }

    void theDurableSettingsHold_data()
    {
        QTest::addColumn<QString>("setting");
        QTest::addColumn<QString>("expected");
        QTest::newRow("write-ahead log") << u"journal_mode"_s << u"wal"_s;
        QTest::newRow("synchronous, 2 is FULL") << u"synchronous"_s << u"2"_s;
        QTest::newRow("foreign keys") << u"foreign_keys"_s << u"1"_s;
        QTest::newRow("application id, Aplm") << u"application_id"_s << u"1097886829"_s;
        QTest::newRow("temporary tables in memory") << u"temp_store"_s << u"2"_s;
    }

    void theDurableSettingsHold()
    {
        QFETCH(QString, setting);
        RecordsFile file;
        QSqlQuery query(file.store().database());
        QVERIFY(query.exec(u"PRAGMA "_s + setting) && query.next());
        QTEST(query.value(0).toString(), "expected");
    }

    void theClinicComesBack()
    {
        RecordsFile file;
        const records::Clinic clinic{u"Clínica Ł 🌻"_s,         u"Street 1\nTown"_s,    u"+00 1"_s, true,
                                     records::Judging{12, 24}, {u"Soon"_s, u"Today"_s}};
        QVERIFY(file.store().save(clinic));
        file.close();
        QCOMPARE(*file.openAgain()->clinic(), clinic);
    }

    void aMissingFileIsNotMadeUnlessAsked()
    {
        const QTemporaryDir folder;
        QCOMPARE(refusal(folder.filePath(u"nothing"_s)), ErrorKind::NotFound);
        QVERIFY(!QFile::exists(folder.filePath(u"nothing"_s)));
    }

    void whatIsNoRecordsFileIsForeignAndStaysUntouched_data()
    {
        QTest::addColumn<QByteArray>("bytes");
        QTest::newRow("empty") << QByteArray();
        QTest::newRow("five letters") << QByteArray("hello");
        QTest::newRow("long text") << QByteArray(10000, 'x');
        QTest::newRow("zeros") << QByteArray(8192, '\0');
        QTest::newRow("the magic and nothing more") << QByteArray("SQLite format 3\0", 16);
    }

    void whatIsNoRecordsFileIsForeignAndStaysUntouched()
    {
        QFETCH(QByteArray, bytes);
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"file"_s);
        write(path, bytes);
        QCOMPARE(refusal(path, Opening::MayCreate), ErrorKind::Foreign);
        QCOMPARE(bytesOf(path), bytes);
        QCOMPARE(QDir(folder.path()).entryList(QDir::Files), QStringList{u"file"_s});
    }

    void theDatabaseOfAnotherProgramIsForeign()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"other"_s);
        sqlite(path, {u"CREATE TABLE patients (id TEXT)"_s});
        const QByteArray before = bytesOf(path);
        QCOMPARE(refusal(path, Opening::MayCreate), ErrorKind::Foreign);
        QCOMPARE(bytesOf(path), before);
    }

    void aFolderIsForeign()
    {
        const QTemporaryDir folder;
        QCOMPARE(refusal(folder.path(), Opening::MayCreate), ErrorKind::Foreign);
    }

    void aPlaceThatCannotBeWrittenIsUnwritable()
    {
        const QTemporaryDir folder;
        write(folder.filePath(u"file"_s), "x");
        QCOMPARE(refusal(u"/proc/records"_s, Opening::MayCreate), ErrorKind::Unwritable);
        QCOMPARE(refusal(u"/proc/clinic/records"_s, Opening::MayCreate), ErrorKind::Unwritable);
        QCOMPARE(refusal(folder.filePath(u"file/records"_s), Opening::MayCreate), ErrorKind::Unwritable);
    }

    void aFileThatMayNotBeWrittenIsUnwritable()
    {
        if (geteuid() == 0)
            QSKIP("The superuser may write everything.");
        RecordsFile file;
        file.close();
        QVERIFY(QFile::setPermissions(file.path(), QFile::ReadOwner));
        QCOMPARE(refusal(file.path()), ErrorKind::Unwritable);
        QVERIFY(QFile::setPermissions(file.path(), {}));
        QCOMPARE(refusal(file.path()), ErrorKind::Unreadable);
    }

    void aStrayJournalIsNotTakenForOurs()
    {
        const QTemporaryDir folder;
        write(folder.filePath(u"records-wal"_s), "left behind");
        QCOMPARE(refusal(folder.filePath(u"records"_s), Opening::MayCreate), ErrorKind::Foreign);
        QCOMPARE(QDir(folder.path()).entryList(QDir::Files), QStringList{u"records-wal"_s});
    }

    void aNewerFileIsRefusedAndKept()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"records"_s);
        auto newer = storage::chain(u":/schema"_s);
        newer.push_back({newer.back().version + 1, {u"CREATE TABLE what_is_to_come (id TEXT)"_s}});
        QVERIFY(Store::open(path, tester, Opening::MayCreate, newer));
        QCOMPARE(refusal(path), ErrorKind::Newer);
        QVERIFY(Store::open(path, tester, Opening::MustExist, newer));
    }

    void aTruncatedFileIsRefused()
    {
        RecordsFile file;
        file.close();
        const QByteArray whole = bytesOf(file.path());
        for (const qsizetype size : {whole.size() - 1, whole.size() / 2, qsizetype(4096), qsizetype(100)}) {
            write(file.path(), whole.first(size));
            QVERIFY2(refusal(file.path()).has_value(), qPrintable(QString::number(size)));
        }
    }

    void aDamagedSchemaIsUnreadable()
    {
        RecordsFile file;
        file.close();
        QByteArray bytes = bytesOf(file.path());
        bytes.replace(100, 3000, QByteArray(3000, '\xff')); // the first page holds the list of tables
        write(file.path(), bytes);
        QCOMPARE(refusal(file.path()), ErrorKind::Unreadable);
    }

    void aFileWithOurMarkAndNoTablesIsNotTakenForAnEmptyClinic()
    {
        RecordsFile file;
        file.close();
        const QString bare = file.path() + u".bare"_s;
        sqlite(bare, {u"PRAGMA application_id = 1097886829"_s, u"CREATE TABLE x (y)"_s, u"DROP TABLE x"_s});
        QCOMPARE(refusal(bare), ErrorKind::Unreadable);
    }

    void anOlderFileIsCopiedAndBroughtUpToDate()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"records"_s);
        const auto whole = storage::chain(u":/schema"_s);
        QVERIFY(whole.size() >= 2);
        const auto patient = fullPatient();
        {
            const auto old = Store::open(path, tester, Opening::MayCreate, firstOf(whole, 1));
            QVERIFY(old);
            const QString sql = uR"(
                INSERT INTO patients (id, revision, record_number, family, given, sex, dominant_hand, diagnosis,
                    population, referrer, general_practitioner, allergies, notes)
                VALUES (:id, 1, '', :family, '', 'unknown', 'unknown', '', '', '', '', '', ''))"_s;
            QVERIFY(storage::write(**old, sql, {{":id", patient.id.text}, {":family", patient.family}}));
        }

        const auto store = Store::open(path, tester, Opening::MustExist);
        QVERIFY(store);
        QCOMPARE(*storage::schemaVersion(**store), whole.back().version);
        QCOMPARE(storage::Patients(**store).withId(patient.id)->family, patient.family);

        const QString copy = path + u".version-1"_s;
        QCOMPARE(QFile::permissions(copy), ownerOnly);
        const auto kept = Store::open(copy, tester, Opening::MustExist, firstOf(whole, 1));
        QVERIFY(kept);
        QSqlQuery families(u"SELECT family FROM patients"_s, (*kept)->database());
        QVERIFY(families.next());
        QCOMPARE(families.value(0).toString(), patient.family);
    }

    void anOlderFileIsJudgedByTheDefaults()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"records"_s);
        {
            const auto old =
                Store::open(path, tester, Opening::MayCreate, firstOf(storage::chain(u":/schema"_s), 4));
            QVERIFY(old);
            QVERIFY(storage::write(**old, u"UPDATE clinic SET name = 'Old clinic'"_s, {}));
        }
        const auto store = Store::open(path, tester, Opening::MustExist);
        QVERIFY(store);
        records::Clinic clinic = *(*store)->clinic();
        QCOMPARE(clinic.name, u"Old clinic"_s);
        QCOMPARE(clinic.judging.plannedVisits, 8);
        QVERIFY(!clinic.judging.compositeWeeks);
        QCOMPARE(clinic.judging.strictness, records::Strictness::Balanced);
        clinic.judging = {3, std::nullopt, records::Strictness::Sensitive};
        QVERIFY((*store)->save(clinic));
        QCOMPARE(*(*store)->clinic(), clinic);
    }

    void theClinicsChoicesAreKeptInOrder()
    {
        RecordsFile file;
        storage::Store& store = file.store();
        QVERIFY(store.chooseEvidence({u"stroke"_s, {u"sara"_s, u"row"_s, u" our own study "_s, {}, {}}}));
        QVERIFY(store.chooseEvidence({u"stroke"_s, {u"sara"_s, {}, u"another device"_s, {}, {}}}));
        QCOMPARE(store.chooseEvidence({u"stroke"_s, {u"sara"_s, u"row"_s, u" "_s, {}, {}}}).error().kind,
                 base::ErrorKind::Refused);
        records::Clinic clinic = *store.clinic();
        QVERIFY(store.save(clinic)); // which leaves them alone
        const auto choices = store.clinic()->judging.choices;
        QCOMPARE(choices.size(), size_t(2));
        QCOMPARE(choices.front().population, u"stroke"_s);
        QCOMPARE(choices.front().choice.threshold, u"row"_s);
        QCOMPARE(choices.front().choice.reason, u"our own study"_s);
        QCOMPARE(choices.front().choice.who, u"tester"_s);
        QVERIFY(choices.front().choice.chosenAt <= choices.back().choice.chosenAt);
        QCOMPARE(choices.back().choice.threshold, QString());
        QCOMPARE(*storage::Patients(store).chosenThresholds(), QStringList{u"row"_s});
    }

    void anEarlierCopyIsNotWrittenOver()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"records"_s);
        QVERIFY(Store::open(path, tester, Opening::MayCreate, firstOf(storage::chain(u":/schema"_s), 1)));
        write(path + u".version-1"_s, "an earlier copy");
        QVERIFY(Store::open(path, tester, Opening::MustExist));
        QCOMPARE(bytesOf(path + u".version-1"_s), QByteArray("an earlier copy"));
        QVERIFY(QFile::exists(path + u".version-1-2"_s));
    }

    void aMigrationThatFailsLeavesTheFileAsItWas()
    {
        RecordsFile file;
        const auto patient = *storage::Patients(file.store()).save(fullPatient());
        file.close();
        auto broken = storage::chain(u":/schema"_s);
        broken.push_back(
            {broken.back().version + 1,
             {u"CREATE TABLE half_done (id TEXT)"_s, u"INSERT INTO nowhere (id) VALUES ('1')"_s}});
        QVERIFY(!Store::open(file.path(), tester, Opening::MustExist, broken));

        const auto store = file.openAgain();
        QVERIFY(!store->database().tables().contains(u"half_done"_s));
        QCOMPARE(*storage::Patients(*store).withId(patient.id), patient);
    }

    void aNewFileThatCannotBeFinishedIsNotLeftBehind()
    {
        const QTemporaryDir folder;
        QVERIFY(
            !Store::open(folder.filePath(u"records"_s), tester, Opening::MayCreate, {{1, {u"NO SQL"_s}}}));
        QVERIFY(QDir(folder.path()).entryList(QDir::Files | QDir::Hidden).isEmpty());
    }

    void theChainIsNumberedWithoutGaps()
    {
        const auto chain = storage::chain(u":/schema"_s);
        QVERIFY(!chain.empty());
        for (size_t i = 0; i < chain.size(); ++i)
            QCOMPARE(chain[i].version, int(i + 1));
    }

    void aSecondProgramReadsWhatIsCommittedOnly()
    {
        RecordsFile file;
        const auto second = file.openAgain();
        storage::Transaction transaction(file.store(), storage::Transaction::Kind::Writes);
        QVERIFY(transaction.begun());
        QVERIFY(storage::Patients(file.store()).save(fullPatient()));
        QVERIFY(storage::Patients(*second).all()->empty());
        QVERIFY(transaction.commit());
        QCOMPARE(storage::Patients(*second).all()->size(), size_t(1));
    }

    void aRecordsFileHasOneWriter()
    {
        RecordsFile file;
        const auto second = Store::open(file.path(), tester, Opening::MustExist);
        QVERIFY(!second);
        QCOMPARE(second.error().kind, ErrorKind::Refused);
        const QString since = file.access().now().toLocalTime().toString(u"HH:mm"_s);
        QVERIFY2(second.error().what.english().startsWith(
                     u"These records are open elsewhere: tester has had them open on the computer "_s) &&
                     second.error().what.english().contains(u"since 01-Mar-2026, "_s + since),
                 qPrintable(second.error().what.english()));
        file.close();
        QVERIFY(Store::open(file.path(), tester, Opening::MustExist));
    }

    void aLinkToTheFileIsTheSameFile()
    {
        RecordsFile file;
        const QTemporaryDir elsewhere;
        const QString link = elsewhere.filePath(u"link"_s);
        QVERIFY(QFile::link(file.path(), link));
        QCOMPARE(refusal(link), ErrorKind::Refused);
    }

    void theSideFileOfAnEndedProgramHoldsNobodyOff()
    {
        RecordsFile file;
        file.close();
        write(lockOf(file.path()), "Dr Serra\nward\n2026-03-01T08:00:00Z\n1");
        QVERIFY(Store::open(file.path(), tester, Opening::MustExist));
    }

    void aSideFileThatIsALinkIsNotFollowed()
    {
        RecordsFile file;
        file.close();
        QVERIFY(QFile::remove(lockOf(file.path())));
        const QTemporaryDir elsewhere;
        write(elsewhere.filePath(u"precious"_s), "precious");
        QVERIFY(QFile::link(elsewhere.filePath(u"precious"_s), lockOf(file.path())));
        QCOMPARE(refusal(file.path()), ErrorKind::Unwritable);
        QCOMPARE(bytesOf(elsewhere.filePath(u"precious"_s)), QByteArray("precious"));
    }

    /// As a file dialog on the records' folder does, which looks at what the files are.
    void theLocksOutliveAnybodyWhoClosesTheFile()
    {
        RecordsFile file;
        QVERIFY(storage::Patients(file.store()).save(fullPatient()));
        const int before = locksOn(file.path());
        QVERIFY(before > 0);
        for (const QString& ending : {u""_s, u"-wal"_s, u"-shm"_s})
            QVERIFY(!bytesOf(file.path() + ending).isEmpty());
        QVERIFY(!QMimeDatabase().mimeTypeForFile(file.path()).name().isEmpty());
        QCOMPARE(locksOn(file.path()), before);
        QCOMPARE(refusal(file.path()), ErrorKind::Refused);
    }

    void whatWasOpenedToReadCannotBeWritten()
    {
        RecordsFile file;
        const auto reader = file.openAgain();
        const auto saved = storage::Patients(*reader).save(fullPatient());
        QVERIFY(!saved);
        QCOMPARE(saved.error().kind, ErrorKind::Unwritable);
        QVERIFY(storage::Patients(file.store()).save(fullPatient()));
    }

    void aReaderLeavesTheLogOfTheWriterAlone()
    {
        RecordsFile file;
        QVERIFY(storage::Patients(file.store()).save(fullPatient()));
        const QByteArray log = bytesOf(file.path() + u"-wal"_s);
        {
            const auto reader = file.openAgain();
            QCOMPARE(storage::Patients(*reader).all()->size(), size_t(1));
        }
        QCOMPARE(bytesOf(file.path() + u"-wal"_s), log);
    }

    void aReaderLeavesNothingBesideAClosedFile()
    {
        RecordsFile file;
        file.close();
        const QFileInfo place(file.path());
        const QByteArray before = bytesOf(file.path());
        {
            const auto reader = Store::open(file.path(), tester, Opening::ToRead);
            QVERIFY(reader);
            QVERIFY(storage::Patients(**reader).all()->empty());
        }
        QCOMPARE(place.dir().entryList(QDir::Files), QStringList{place.fileName()});
        QCOMPARE(bytesOf(file.path()), before);
    }

    void aClosedFileIsTheWholeClinic()
    {
        RecordsFile file;
        QVERIFY(storage::Patients(file.store()).save(fullPatient()));
        file.close();
        const QFileInfo place(file.path());
        QCOMPARE(place.dir().entryList(QDir::Files), QStringList{place.fileName()});
        QVERIFY(bytesOf(file.path()).contains(fullPatient().family.toUtf8()));
    }

    void onceSettledTheFileAloneHoldsWhatWasSaved()
    {
        RecordsFile file;
        QVERIFY(storage::Patients(file.store()).save(fullPatient()));
        QVERIFY(!bytesOf(file.path()).contains(fullPatient().family.toUtf8()));
        file.store().settle();
        QVERIFY(bytesOf(file.path()).contains(fullPatient().family.toUtf8()));
    }

    void aFileThatLostItsNameTakesNoMoreSaves_data()
    {
        QTest::addColumn<QString>("what");
        for (const char* what : {"renamed", "deleted", "replaced"})
            QTest::newRow(what) << QString::fromLatin1(what);
    }

    void aFileThatLostItsNameTakesNoMoreSaves()
    {
        QFETCH(QString, what);
        RecordsFile file;
        storage::Patients patients(file.store());
        QVERIFY(patients.save(fullPatient()));
        const QString aside = file.path() + u".aside"_s;
        QVERIFY(what == u"deleted"_s ? QFile::remove(file.path()) : QFile::rename(file.path(), aside));
        if (what == u"replaced"_s)
            write(file.path(), "another file");
        const auto refused = patients.save(records::Patient{});
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::NotFound);
        if (what == u"renamed"_s) { // what was saved before went with it, and back in its place it goes on
            QVERIFY(bytesOf(aside).contains(fullPatient().family.toUtf8()));
            QVERIFY(QFile::rename(aside, file.path()));
            QVERIFY(patients.save(records::Patient{}));
        }
        file.close();
        if (what == u"replaced"_s)
            QCOMPARE(bytesOf(file.path()), QByteArray("another file"));
    }

    void namesThatMeanSomethingToTheDatabaseAreNames_data()
    {
        QTest::addColumn<QString>("name");
        QTest::newRow("in memory") << u":memory:"_s;
        QTest::newRow("an address") << u"file:clinic?mode=memory"_s;
    }

    void namesThatMeanSomethingToTheDatabaseAreNames()
    {
        QFETCH(QString, name);
        const QTemporaryDir folder;
        const QString before = QDir::currentPath();
        QVERIFY(QDir::setCurrent(folder.path()));
        {
            const auto store = Store::open(name, tester, Opening::MayCreate);
            QVERIFY(store);
            QVERIFY(storage::Patients(**store).save(fullPatient()));
        }
        QVERIFY(QDir::setCurrent(before));
        QVERIFY(bytesOf(folder.path() + u'/' + name).contains(fullPatient().family.toUtf8()));
    }

    void whatWasBegunAndNotKeptLeavesNothing()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"records"_s);
        {
            const auto store = Store::open(path, tester, Opening::MayBegin);
            QVERIFY(store);
            QVERIFY(storage::Patients(**store).save(fullPatient()));
            QVERIFY(!QFile::exists(path));
        }
        QCOMPARE(everythingIn(folder.path()), QStringList());
    }

    void whatIsKeptIsInItsPlaceAndGoesOn()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"records"_s);
        const auto store = Store::open(path, tester, Opening::MayBegin);
        QVERIFY(store);
        QVERIFY(storage::Patients(**store).save(fullPatient()));
        QVERIFY((*store)->keep());
        QCOMPARE(QFile::permissions(path), ownerOnly);
        QVERIFY(storage::Patients(**store).save(records::Patient{}));
        const auto reader = Store::open(path, tester, Opening::ToRead);
        QVERIFY(reader);
        QCOMPARE(storage::Patients(**reader).all()->size(), size_t(2));
    }

    void aFileMadeMeanwhileIsLeftAlone()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"records"_s);
        {
            const auto store = Store::open(path, tester, Opening::MayBegin);
            QVERIFY(store);
            write(path, "made by another program");
            const auto kept = (*store)->keep();
            QVERIFY(!kept);
            QCOMPARE(kept.error().kind, ErrorKind::Refused);
        }
        QCOMPARE(bytesOf(path), QByteArray("made by another program"));
        QCOMPARE(QDir(folder.path()).entryList(QDir::Files), QStringList{u"records"_s});
    }

    void whatAnEndedProgramLeftUnfinishedIsTakenAway()
    {
        RecordsFile file;
        file.close();
        write(file.path() + u".unfinished"_s, "half a copy");
        QVERIFY(Store::open(file.path(), tester, Opening::MustExist));
        QVERIFY(!QFile::exists(file.path() + u".unfinished"_s));
    }

    void aCopyThatCannotBeFinishedLeavesNothing()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"records"_s);
        const auto whole = storage::chain(u":/schema"_s);
        QVERIFY(Store::open(path, tester, Opening::MayCreate, firstOf(whole, 1)));
        const QByteArray before = bytesOf(path);
        {
            const LargestFile none(before.size() / 2);
            QVERIFY(!Store::open(path, tester, Opening::MustExist));
        }
        QCOMPARE(bytesOf(path), before);
        QCOMPARE(everythingIn(folder.path()), QStringList{u"records"_s});
    }

    void anOlderFileIsBroughtUpToDateToBeRead()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"records"_s);
        QVERIFY(Store::open(path, tester, Opening::MayCreate, firstOf(storage::chain(u":/schema"_s), 1)));
        QVERIFY(Store::open(path, tester, Opening::ToRead));
        QVERIFY(QFile::exists(path + u".version-1"_s));
    }

    void aCopyIsWorkedWithAndTheFileStaysAsItWas()
    {
        RecordsFile file;
        QVERIFY(storage::Patients(file.store()).save(fullPatient()));
        const QStringList there = everythingIn(QFileInfo(file.path()).path());
        const auto copy = Store::open(file.path(), tester, Opening::AsCopy);
        QVERIFY(copy);
        QVERIFY(storage::Patients(**copy).save(records::Patient{}));
        QCOMPARE(storage::Patients(**copy).all()->size(), size_t(2));
        QCOMPARE(storage::Patients(file.store()).all()->size(), size_t(1));
        QCOMPARE(everythingIn(QFileInfo(file.path()).path()), there);
    }

    void whatIsDoneTogetherIsKeptWholeOrNotAtAll()
    {
        RecordsFile file;
        storage::Patients patients(file.store());
        const auto both = storage::together(file.store(), [&]() -> base::Result<void> {
            if (auto first = patients.save(fullPatient()); !first)
                return first.error();
            if (auto second = patients.save(fullPatient()); !second) // the same record number
                return second.error();
            return {};
        });
        QCOMPARE(both.error().kind, ErrorKind::Invalid);
        QVERIFY(patients.all()->empty());
    }

    void aPartThatFailsMayBePassedOver()
    {
        RecordsFile file;
        storage::Patients patients(file.store());
        const auto all = storage::together(file.store(), [&]() -> base::Result<void> {
            if (auto first = patients.save(fullPatient()); !first)
                return first.error();
            (void)patients.save(fullPatient());
            return {};
        });
        QVERIFY(all);
        QCOMPARE(patients.all()->size(), size_t(1));
    }
};

HOUSE_TEST(TestStore)

} // namespace test_store

#include "test_store.moc"
