#include "core/base/file.h"
#include "core/storage/backup.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/transaction.h"
#include "core/storage/visits.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <QDir>

#include <algorithm>
#include <csignal>
#include <sys/resource.h>

using namespace Qt::StringLiterals;

namespace test_backup
{

using base::ErrorKind;
using records::Opening;
using storage::Store;

/// A clinic with one patient and a folder for backups.
struct Clinic {
    RecordsFile file;
    records::Patient patient = *storage::Patients(file.store()).save(fullPatient());
    records::Visit visit = *storage::Visits(file.store()).add(fullVisit(patient.id, QDate(2026, 2, 20)));
    QTemporaryDir folder;
    QString path = folder.filePath(u"backup.aplomb"_s);

    /// So many that a copy takes a while.
    void grow()
    {
        storage::Transaction transaction(file.store(), storage::Transaction::Kind::Writes);
        for (int number = 0; number < 1000; ++number) {
            records::Patient another = fullPatient();
            another.recordNumber = QString::number(number);
            QVERIFY(storage::Patients(file.store()).save(another));
        }
        QVERIFY(transaction.commit());
    }

    QStringList files() const { return QDir(folder.path()).entryList(QDir::Files | QDir::Hidden); }
};

class TestBackup : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void itHoldsEverythingAndIsItsOwnersAlone()
    {
        Clinic clinic;
        QVERIFY(storage::backUp(clinic.file.store(), clinic.path));
        QCOMPARE(clinic.files(), QStringList{u"backup.aplomb"_s});
        QCOMPARE(QFile::permissions(clinic.path) & ~(QFile::ReadUser | QFile::WriteUser),
                 QFile::ReadOwner | QFile::WriteOwner);
        const auto copy = Store::open(clinic.path, clinic.file.access(), Opening::MustExist);
        QVERIFY(copy);
        QCOMPARE(*storage::Patients(**copy).withId(clinic.patient.id), clinic.patient);
        QCOMPARE(*storage::Visits(**copy).withId(clinic.visit.id), clinic.visit);
    }

    void itIsMadeBesideAnOpenWindowFromRecordsOpenedToRead()
    {
        Clinic clinic;
        const auto reader = clinic.file.openAgain();
        QVERIFY(storage::backUp(*reader, clinic.path));
        const auto copy = Store::open(clinic.path, clinic.file.access(), Opening::ToRead);
        QVERIFY(copy);
        QCOMPARE(*storage::Visits(**copy).withId(clinic.visit.id), clinic.visit);
    }

    /// Whoever is told, such as a window, goes on with the records meanwhile.
    void itTellsHowFarItIsAndLetsOthersWrite()
    {
        Clinic clinic;
        clinic.grow();
        std::vector<int> told;
        const auto done = storage::backUp(clinic.file.store(), clinic.path, [&](int percent) {
            told.push_back(percent);
            records::Patient another;
            another.family = u"Varnhem"_s;
            return bool(storage::Patients(clinic.file.store()).save(another));
        });
        QVERIFY2(done, done ? "" : qPrintable(done.error().detail));
        QVERIFY(std::ranges::is_sorted(told));
        QVERIFY(told.size() > 3 && told.front() >= 0 && told.front() < 50 && told.back() > 80 &&
                told.back() <= 100);
        const auto copy = Store::open(clinic.path, clinic.file.access(), Opening::ToRead);
        QVERIFY(copy);
        QCOMPARE(storage::Patients(**copy).all()->size(), size_t(1001)); // as it was when the backup began
        QCOMPARE(storage::Patients(clinic.file.store()).all()->size(), told.size() + 1001);
    }

    void stoppedAnywhereItLeavesNothing()
    {
        Clinic clinic;
        clinic.grow();
        int asked = 0;
        QVERIFY(storage::backUp(clinic.file.store(), clinic.folder.filePath(u"whole.aplomb"_s),
                                [&](int) { return ++asked > 0; }));
        QVERIFY(asked > 3);
        for (int last = 1; last <= asked; last += std::max(1, asked / 12)) {
            int times = 0;
            const auto stopped =
                storage::backUp(clinic.file.store(), clinic.path, [&](int) { return ++times < last; });
            QVERIFY(!stopped);
            QCOMPARE(stopped.error().what.english(), base::stopped().what.english());
            QCOMPARE(clinic.files(), QStringList{u"whole.aplomb"_s});
        }
    }

    void whatIsNotCommittedYetIsNotInIt()
    {
        Clinic clinic;
        const auto reader = clinic.file.openAgain();
        storage::Transaction transaction(clinic.file.store(), storage::Transaction::Kind::Writes);
        QVERIFY(transaction.begun());
        QVERIFY(storage::Patients(clinic.file.store()).save(records::Patient{}));
        QVERIFY(storage::backUp(*reader, clinic.path));
        const auto copy = Store::open(clinic.path, clinic.file.access(), Opening::ToRead);
        QVERIFY(copy);
        QCOMPARE(storage::Patients(**copy).all()->size(), size_t(1));
    }

    void aFileOfThatNameIsLeftAsItIs()
    {
        Clinic clinic;
        QVERIFY(base::write("something else", clinic.path + u".txt"_s));
        QVERIFY(QFile::rename(clinic.path + u".txt"_s, clinic.path));
        const auto refused = storage::backUp(clinic.file.store(), clinic.path);
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::Refused);
        QCOMPARE(*base::read(clinic.path, 100), QByteArray("something else"));
        const auto itself = storage::backUp(clinic.file.store(), clinic.file.path());
        QVERIFY(!itself);
        QCOMPARE(itself.error().kind, ErrorKind::Refused);
    }

    void whereNothingCanBeWrittenNothingIsLeft()
    {
        Clinic clinic;
        const auto refused =
            storage::backUp(clinic.file.store(), clinic.folder.filePath(u"none/backup.aplomb"_s));
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::Unwritable);
        QCOMPARE(clinic.files(), QStringList());
    }

    void onAFullDiskNothingIsLeft()
    {
        Clinic clinic;
        std::signal(SIGXFSZ, SIG_IGN);
        rlimit before = {};
        getrlimit(RLIMIT_FSIZE, &before);
        const rlimit less{20'000, before.rlim_max};
        setrlimit(RLIMIT_FSIZE, &less);
        const auto refused = storage::backUp(clinic.file.store(), clinic.path);
        setrlimit(RLIMIT_FSIZE, &before);
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::Unwritable);
        QCOMPARE(clinic.files(), QStringList());
    }

    void recordsThatAreDamagedAreNotCalledBackedUp()
    {
        Clinic clinic;
        auto& store = clinic.file.store();
        QVERIFY(storage::write(store, u"PRAGMA foreign_keys = OFF"_s, {}));
        QVERIFY(storage::write(store, u"UPDATE visits SET patient = 'nobody'"_s, {}));
        const auto refused = storage::backUp(store, clinic.path);
        QVERIFY(!refused);
        QCOMPARE(refused.error().kind, ErrorKind::Unreadable);
        QVERIFY(refused.error().what.english().contains(u"not backed up"_s));
        QCOMPARE(clinic.files(), QStringList());
    }

    void theLeftoverOfAnEndedProgramIsNoHindrance()
    {
        Clinic clinic;
        QVERIFY(base::write("half a copy", clinic.path + u".unfinished"_s));
        QVERIFY(storage::backUp(clinic.file.store(), clinic.path));
        QCOMPARE(clinic.files(), QStringList{u"backup.aplomb"_s});
    }
};

HOUSE_TEST(TestBackup)

} // namespace test_backup

#include "test_backup.moc"
