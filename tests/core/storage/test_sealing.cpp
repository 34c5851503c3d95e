#include "core/base/file.h"
#include "core/storage/backup.h"
#include "core/storage/migrations.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/sealing.h"
#include "core/storage/transaction.h"
#include "core/storage/visits.h"
#include "tests/support/places.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <QDir>
#include <QProcess>
#include <QSqlQuery>

#include <sqlite3.h>

using namespace Qt::StringLiterals;

namespace test_sealing
{

using base::ErrorKind;
using records::Opening;
using storage::Store;

constexpr auto magic = "SQLite format 3";

/// A word that lies in every patient, to be looked for in files.
const QString telltale = u"Telltale"_s;

records::Patient telling(int number)
{
    records::Patient patient = fullPatient();
    patient.id = records::PatientId::make();
    patient.recordNumber = u"T-%1"_s.arg(number);
    patient.family = telltale;
    return patient;
}

/// Sealed or plain records with a patient and a visit.
struct Clinic {
    explicit Clinic(const std::optional<sealing::Seal>& asked = {}) : seal(asked), file(asked)
    {
        patient = *storage::Patients(file.store()).save(telling(1));
        visit = *storage::Visits(file.store()).add(fullVisit(patient.id, QDate(2026, 2, 20)));
    }

    QDir folder() const { return QFileInfo(file.path()).dir(); }
    QStringList files() const
    {
        QStringList files = folder().entryList(QDir::Files | QDir::Hidden);
        files.removeIf([](const QString& name) { return name.endsWith(u".lock"_s); });
        return files;
    }
    storage::Access access(const std::optional<sealing::Seal>& with)
    {
        storage::Access access = file.access();
        access.seal = with;
        return access;
    }
    /// The files of the records, whatever lies beside them, that hold something readable.
    QStringList readable() const
    {
        QStringList readable;
        for (const QString& name : folder().entryList(QDir::Files | QDir::Hidden)) {
            const QByteArray bytes = *base::read(folder().filePath(name), 100'000'000);
            if (bytes.contains(telltale.toUtf8()) || bytes.contains(magic) || bytes.contains("CREATE TABLE"))
                readable += name;
        }
        return readable;
    }
    bool holdsEverything(const Store& store) const
    {
        return *storage::Patients(const_cast<Store&>(store)).withId(patient.id) == patient &&
               *storage::Visits(const_cast<Store&>(store)).withId(visit.id) == visit;
    }

    std::optional<sealing::Seal> seal;
    RecordsFile file;
    records::Patient patient;
    records::Visit visit;
};

class TestSealing : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void init()
    {
        if (!storage::canSeal())
            QSKIP("This build has the system's SQLite.");
    }

    /// Two in one process would each keep locks the other does not know of.
    void oneSqliteServesProgramAndDriver()
    {
        RecordsFile file;
        QFile maps(u"/proc/self/maps"_s);
        QVERIFY(maps.open(QIODevice::ReadOnly));
        QSet<QString> loaded;
        for (const QString& line : QString::fromLocal8Bit(maps.readAll()).split(u'\n')) {
            if (line.contains(u"libsqlite3"_s))
                loaded.insert(line.section(u' ', -1));
        }
        QCOMPARE(loaded.size(), 1);
        QVERIFY2(loaded.begin()->contains(u"/lib/libsqlite3.so.0"_s), qPrintable(*loaded.begin()));
        QVERIFY2(!loaded.begin()->startsWith(u"/usr"_s), qPrintable(*loaded.begin()));
    }

    void theDriverIsServedByOurs()
    {
        RecordsFile file;
        QSqlQuery query(u"SELECT sqlite3mc_version()"_s, file.store().database());
        QVERIFY(query.next());
        QCOMPARE(query.value(0).toString(), QString::fromLatin1(sqlite3mc_version()));
    }

    void withAnotherSqliteTheProgramDoesNotStart()
    {
        const QStringList systems = {u"/usr/lib/x86_64-linux-gnu"_s, u"/usr/lib/aarch64-linux-gnu"_s,
                                     u"/usr/lib"_s};
        const auto system = std::ranges::find_if(
            systems, [](const QString& folder) { return QFile::exists(folder + u"/libsqlite3.so.0"_s); });
        if (system == systems.end())
            QSKIP("No other SQLite here.");
        QProcess program;
        QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
        environment.insert(u"LD_LIBRARY_PATH"_s, *system);
        program.setProcessEnvironment(environment);
        program.start(places::program(), {u"--version"_s});
        QVERIFY(program.waitForFinished());
        QVERIFY(program.exitCode() != 0);
        QVERIFY(program.readAllStandardError().contains("sqlite3mc_version"));
        QCOMPARE(program.readAllStandardOutput(), QByteArray());
    }

    void nothingPlainLiesOnTheDiskWhileTheyAreWrittenTo()
    {
        Clinic clinic(quickSeal());
        storage::Patients patients(clinic.file.store());
        for (int i = 2; i < 200; ++i)
            QVERIFY(patients.save(telling(i)));
        QVERIFY(clinic.files().contains(u"records.aplomb-wal"_s));
        QCOMPARE(clinic.readable(), QStringList());
        clinic.file.store().settle();
        QCOMPARE(clinic.readable(), QStringList());
        clinic.file.close();
        QCOMPARE(clinic.readable(), QStringList());
        QCOMPARE(clinic.files(), QStringList({u"records.aplomb"_s, u"records.aplomb.keys"_s}));
    }

    void theyOpenWithTheirKeyAlone()
    {
        Clinic clinic(quickSeal());
        clinic.file.close();
        for (const Opening opening :
             {Opening::MustExist, Opening::ToRead, Opening::AsCopy, Opening::MayCreate}) {
            const auto opened = Store::open(clinic.file.path(), clinic.access(clinic.seal), opening);
            QVERIFY2(opened, opened ? "" : qPrintable(opened.error().what.english()));
            QVERIFY((*opened)->isSealed());
            QVERIFY(clinic.holdsEverything(**opened));
            const auto wrong = Store::open(clinic.file.path(), clinic.access(quickSeal()), opening);
            QVERIFY(!wrong);
        }
        for (const Opening opening : {Opening::MustExist, Opening::ToRead, Opening::AsCopy}) {
            const auto wrong = Store::open(clinic.file.path(), clinic.access(quickSeal()), opening);
            QCOMPARE(wrong.error().kind, ErrorKind::Refused);
            QVERIFY(wrong.error().what.english().startsWith(u"These records do not open with this key"_s));
            const auto without = Store::open(clinic.file.path(), clinic.access({}), opening);
            QCOMPARE(without.error().kind, ErrorKind::Refused);
            QVERIFY(without.error().what.english().startsWith(u"These records are sealed"_s));
        }
        QCOMPARE(clinic.files(), QStringList({u"records.aplomb"_s, u"records.aplomb.keys"_s}));
    }

    void theKeysFileIsNotNeededWithTheCode()
    {
        Clinic clinic(quickSeal());
        clinic.file.close();
        QVERIFY(QFile::remove(clinic.file.path() + u".keys"_s));
        const auto key = sealing::Key::fromCode(clinic.seal->key.code().join(u' '));
        const auto opened =
            Store::open(clinic.file.path(), clinic.access(sealing::Seal{*key}), Opening::MustExist);
        QVERIFY(opened);
        QVERIFY(clinic.holdsEverything(**opened));
    }

    void plainRecordsAreNotTakenForSealedOnes()
    {
        Clinic clinic;
        clinic.file.close();
        for (const Opening opening : {Opening::MustExist, Opening::ToRead}) {
            const auto refused = Store::open(clinic.file.path(), clinic.access(quickSeal()), opening);
            QCOMPARE(refused.error().what.english(), u"These records are not sealed."_s);
        }
    }

    void theyAreReadBesideTheirWriterAndAsACopy()
    {
        Clinic clinic(quickSeal());
        const auto reader = clinic.file.openAgain();
        QVERIFY(clinic.holdsEverything(*reader));
        QVERIFY(storage::Patients(clinic.file.store()).save(telling(2)));
        QCOMPARE(storage::Patients(*reader).all()->size(), size_t(2));
        const auto second = Store::open(clinic.file.path(), clinic.access(clinic.seal), Opening::MustExist);
        QVERIFY(second.error().what.english().startsWith(u"These records are open elsewhere"_s));
        const auto copy = Store::open(clinic.file.path(), clinic.access(clinic.seal), Opening::AsCopy);
        QVERIFY(storage::Patients(**copy).save(telling(3)));
        QCOMPARE(storage::Patients(**copy).all()->size(), size_t(3));
        QCOMPARE(storage::Patients(clinic.file.store()).all()->size(), size_t(2));
    }

    /// The format's own description, and Debian's sqlite3, which knows nothing of it.
    void anotherToolReadsThem()
    {
        Clinic clinic(quickSeal());
        clinic.file.close();
        const QString plain = clinic.folder().filePath(u"plain"_s);
        QProcess reading;
        reading.start(u"python3"_s, {places::inSource(u"tests/support/read_sealed.py"_s), clinic.file.path(),
                                     inHex(clinic.seal->key), plain});
        QVERIFY(reading.waitForFinished());
        QVERIFY2(reading.exitCode() == 0, reading.readAllStandardError().constData());
        QProcess shell;
        shell.start(u"sqlite3"_s, {plain, u"PRAGMA integrity_check; SELECT family FROM patients"_s});
        QVERIFY(shell.waitForFinished());
        QCOMPARE(QString::fromUtf8(shell.readAllStandardOutput()), u"ok\n"_s + telltale + u'\n');
        shell.start(u"sqlite3"_s, {clinic.file.path(), u"SELECT family FROM patients"_s});
        QVERIFY(shell.waitForFinished());
        QVERIFY(shell.readAllStandardError().contains("file is not a database"));
    }

    /// Debian 13's; Debian 12 has one that knows only older formats.
    void theToolOfTheFormatReadsThem()
    {
        Clinic clinic(quickSeal());
        clinic.file.close();
        QProcess tool;
        const auto answer = [&](const QString& question) {
            tool.start(u"sqlcipher"_s, {clinic.file.path(), question});
            return tool.waitForFinished() ? QString::fromUtf8(tool.readAllStandardOutput()) : QString();
        };
        if (!answer(u"PRAGMA cipher_version"_s).startsWith(u'4'))
            QSKIP("No SQLCipher 4 here.");
        QCOMPARE(
            answer(
                u"PRAGMA key = \"x'%1'\"; PRAGMA cipher_integrity_check; SELECT family FROM patients"_s.arg(
                    inHex(clinic.seal->key))),
            u"ok\n"_s + telltale + u'\n');
    }

    void plainRecordsAreSealedInTheirPlace()
    {
        Clinic clinic;
        for (int i = 2; i < 100; ++i)
            QVERIFY(storage::Patients(clinic.file.store()).save(telling(i)));
        QVERIFY(!clinic.readable().isEmpty());
        const sealing::Seal seal = quickSeal();
        int told = 0;
        QVERIFY(clinic.file.store().seal(seal, [&](int percent) {
            told += percent >= 0 && percent < 100 ? 1 : 1000;
            return true;
        }));
        QVERIFY(told < 1000);
        QCOMPARE(clinic.readable(), QStringList());
        QVERIFY(clinic.file.store().isSealed());
        QVERIFY(clinic.holdsEverything(clinic.file.store())); // it goes on where it was
        QVERIFY(storage::Patients(clinic.file.store()).save(telling(100)));
        QCOMPARE(clinic.readable(), QStringList());
        QCOMPARE(*base::read(clinic.file.path() + u".keys"_s, 1000), seal.wrapped);
        const auto others = QFile::ReadGroup | QFile::ReadOther | QFile::WriteGroup | QFile::WriteOther;
        QVERIFY(!(QFile::permissions(clinic.file.path()) & others));
        QCOMPARE(clinic.file.store().seal(seal, {}).error().what.english(),
                 u"These records are sealed already."_s);
        clinic.file.close();
        QCOMPARE(clinic.files(), QStringList({u"records.aplomb"_s, u"records.aplomb.keys"_s}));
        const auto opened = Store::open(clinic.file.path(), clinic.access(seal), Opening::ToRead);
        QVERIFY(opened);
        QCOMPARE(storage::Patients(**opened).all()->size(), size_t(100));
        QCOMPARE(*(*opened)->fileFaults(), QStringList());
    }

    void sealingThatIsStoppedLeavesThemPlain()
    {
        Clinic clinic;
        QVERIFY(storage::together(clinic.file.store(), [&]() -> base::Result<void> {
            for (int i = 2; i < 1000; ++i) {
                if (auto saved = storage::Patients(clinic.file.store()).save(telling(i)); !saved)
                    return saved.error();
            }
            return {};
        }));
        const auto stopped = clinic.file.store().seal(quickSeal(), [](int) { return false; });
        QVERIFY(!stopped);
        QCOMPARE(stopped.error().kind, ErrorKind::Refused);
        QVERIFY(!clinic.file.store().isSealed());
        QVERIFY(clinic.holdsEverything(clinic.file.store()));
        QVERIFY(storage::Patients(clinic.file.store()).save(telling(1000)));
        clinic.file.close();
        QCOMPARE(clinic.files(), QStringList{u"records.aplomb"_s});
    }

    void recordsThatSomebodyReadsAreNotSealedUnderThem()
    {
        Clinic clinic;
        {
            const auto reader = clinic.file.openAgain();
            storage::Transaction reading(*reader, storage::Transaction::Kind::Reads);
            QVERIFY(reading.begun());
            QVERIFY(clinic.holdsEverything(*reader));
            const auto refused = clinic.file.store().seal(quickSeal(), {});
            QVERIFY(!refused);
            QVERIFY(refused.error().what.english().startsWith(u"Another program is reading these records"_s));
            QVERIFY(storage::Patients(clinic.file.store()).save(telling(2)));
        }
        QVERIFY(clinic.file.store().seal(quickSeal(), {}));
    }

    void anotherWrappingTakesTheFirstOnesPlace()
    {
        Clinic clinic(quickSeal());
        QVERIFY(clinic.file.store().rewrap("another\n"));
        QCOMPARE(*base::read(clinic.file.path() + u".keys"_s, 1000), QByteArray("another\n"));
        QCOMPARE(clinic.files().filter(u"unfinished"_s), QStringList());
        const QString backup = clinic.folder().filePath(u"backup"_s);
        QVERIFY(storage::backUp(clinic.file.store(), backup));
        QCOMPARE(*base::read(backup + u".keys"_s, 1000), QByteArray("another\n"));
        QVERIFY(!clinic.file.openAgain()->rewrap("x")); // who reads changes nothing
        Clinic plain;
        QVERIFY(!plain.file.store().rewrap("x"));
    }

    void aBackupIsSealedAndHasItsKeys()
    {
        Clinic clinic(quickSeal());
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"backup.aplomb"_s);
        QVERIFY(storage::backUp(clinic.file.store(), path));
        QCOMPARE(QDir(folder.path()).entryList(QDir::Files | QDir::Hidden),
                 QStringList({u"backup.aplomb"_s, u"backup.aplomb.keys"_s}));
        QVERIFY(!base::read(path, 100'000'000)->contains(telltale.toUtf8()));
        QCOMPARE(*base::read(path + u".keys"_s, 1000), clinic.seal->wrapped);
        const auto copy = Store::open(path, clinic.access(clinic.seal), Opening::MustExist);
        QVERIFY(copy);
        QVERIFY(clinic.holdsEverything(**copy));
        const QString other = folder.filePath(u"other"_s);
        QVERIFY(sealing::writeKeys({clinic.seal->key, "others"}, other + u".keys"_s));
        QCOMPARE(storage::backUp(clinic.file.store(), other).error().kind, ErrorKind::Refused);
        QVERIFY(!QFile::exists(other));
        QCOMPARE(*base::read(other + u".keys"_s, 1000), QByteArray("others"));
        // What a program leaves that is killed between the two names.
        const QString killed = folder.filePath(u"killed"_s);
        QVERIFY(QFile::copy(path + u".keys"_s, killed + u".keys"_s));
        QVERIFY(storage::backUp(clinic.file.store(), killed));
        QVERIFY(sealing::isSealed(killed));
    }

    void newRecordsTakeNoOthersKeys()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"new"_s);
        QVERIFY(sealing::writeKeys(quickSeal(), path + u".keys"_s));
        const auto refused = Store::open(
            path,
            {u"tester"_s, [] { return QDateTime(QDate(2026, 3, 1), QTime(8, 0), Qt::UTC); }, {}, quickSeal()},
            Opening::MayCreate);
        QVERIFY(refused.error().what.english().contains(u"file of keys of other records"_s));
        QCOMPARE(QDir(folder.path()).entryList(QDir::Files), QStringList{u"new.keys"_s});
    }

    void whatWasBegunAndNotKeptLeavesNoKeys()
    {
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"new"_s);
        const storage::Access access{
            u"tester"_s, [] { return QDateTime(QDate(2026, 3, 1), QTime(8, 0), Qt::UTC); }, {}, quickSeal()};
        {
            const auto begun = Store::open(path, access, Opening::MayBegin);
            QVERIFY(begun);
        }
        QCOMPARE(QDir(folder.path()).entryList(QDir::Files | QDir::Hidden), QStringList());
        {
            const auto begun = Store::open(path, access, Opening::MayBegin);
            QVERIFY((*begun)->keep());
        }
        QVERIFY(Store::open(path, access, Opening::MustExist));
    }

    /// A schema that is still to come.
    void olderSealedRecordsAreBroughtUpToDateAndStaySealed()
    {
        Clinic clinic(quickSeal());
        clinic.file.close();
        auto chain = storage::chain(u":/schema"_s);
        chain.push_back({chain.back().version + 1, {u"CREATE TABLE later (words TEXT NOT NULL)"_s}});
        const QString older = clinic.file.path() + u".version-%1"_s.arg(chain.back().version - 1);
        {
            const auto opened =
                Store::open(clinic.file.path(), clinic.access(clinic.seal), Opening::MustExist, chain);
            QVERIFY2(opened, opened ? "" : qPrintable(opened.error().what.english()));
            QVERIFY(clinic.holdsEverything(**opened));
            QVERIFY(storage::readWhole(**opened, u"SELECT COUNT(*) FROM later"_s, {}));
        }
        QCOMPARE(clinic.readable(), QStringList());
        QVERIFY(sealing::isSealed(older));
        QVERIFY(QFile::exists(older + u".keys"_s));
        const auto kept = Store::open(older, clinic.access(clinic.seal), Opening::ToRead);
        QVERIFY(kept);
        QVERIFY(clinic.holdsEverything(**kept));
    }

    void pagesOfAnotherSizeAreSealedToo()
    {
        Clinic clinic;
        QVERIFY(storage::write(clinic.file.store(), u"PRAGMA journal_mode = DELETE"_s, {}));
        QVERIFY(storage::write(clinic.file.store(), u"PRAGMA page_size = 512"_s, {}));
        QVERIFY(storage::write(clinic.file.store(), u"VACUUM"_s, {}));
        QCOMPARE(**storage::readWhole(clinic.file.store(), u"PRAGMA page_size"_s, {}), 512);
        QVERIFY(clinic.file.store().seal(quickSeal(), {}));
        QVERIFY(clinic.holdsEverything(clinic.file.store()));
    }

    void recordsInAFolderWithAStrangeNameAreSealedThere()
    {
        const QTemporaryDir folder;
        for (const QString& name : {u"100 % ? & #1 'x'"_s, u"=Zoë;%41"_s}) {
            QVERIFY(QDir(folder.path()).mkdir(name));
            const QString path = folder.filePath(name + u"/records?key=&x.aplomb"_s);
            const storage::Access access{
                u"tester"_s, [] { return QDateTime(QDate(2026, 3, 1), QTime(8, 0), Qt::UTC); }, {}, {}};
            const auto store = Store::open(path, access, Opening::MayCreate);
            QVERIFY(store);
            QVERIFY((*store)->seal(quickSeal(), {}));
            QVERIFY(sealing::isSealed(path));
            QCOMPARE(QDir(folder.filePath(name)).entryList({u"*.aplomb"_s}).size(), 1);
        }
    }
};

HOUSE_TEST(TestSealing)

} // namespace test_sealing

#include "test_sealing.moc"
