#include "core/base/file.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/sealing.h"
#include "core/storage/visits.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <QRandomGenerator>

using namespace Qt::StringLiterals;
using records::Opening;
using storage::Store;

namespace
{

/// How often a byte is altered; `altered_bytes whole` does it 10,000 times.
int times = 400;

/// Everything the tables hold, as a reader finds it; nothing where something was noticed.
std::optional<QByteArray> everythingIn(const QString& path, const storage::Access& access)
{
    const auto store = Store::open(path, access, Opening::ToRead);
    if (!store)
        return std::nullopt;
    QStringList tables;
    const auto listed =
        storage::read(**store, u"SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name"_s, {},
                      [&](storage::Row& row) -> base::Result<void> {
                          tables += row.text();
                          return {};
                      });
    QByteArray everything;
    bool isRead = bool(listed);
    for (const QString& table : tables) {
        QStringList columns;
        isRead = isRead && storage::read(**store, u"SELECT name FROM pragma_table_info('%1')"_s.arg(table),
                                         {}, [&](storage::Row& row) -> base::Result<void> {
                                             columns += u"quote(\"%1\")"_s.arg(row.text());
                                             return {};
                                         });
        isRead = isRead &&
                 storage::read(**store, u"SELECT %1 FROM \"%2\""_s.arg(columns.join(u"||','||"_s), table), {},
                               [&](storage::Row& row) -> base::Result<void> {
                                   everything += row.bytes() + '\n';
                                   return {};
                               });
    }
    return isRead ? std::optional(everything) : std::nullopt;
}

} // namespace

class TestAlteredBytes : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void everyAlteredByteIsNoticedAndNoneChangesAnAnswer()
    {
        if (!storage::canSeal())
            QSKIP("This build has the system's SQLite.");
        RecordsFile file(quickSeal());
        storage::Patients patients(file.store());
        for (int i = 0; i < 12; ++i) {
            records::Patient patient = fullPatient();
            patient.id = records::PatientId::make();
            patient.recordNumber = QString::number(i);
            patient.notes = u"a note "_s.repeated(i * 100); // pages that overflow
            patient = *patients.save(patient);
            QVERIFY(storage::Visits(file.store()).add(fullVisit(patient.id, QDate(2026, 2, 20))));
        }
        // Pages that hold nothing any more.
        QVERIFY(storage::write(file.store(), u"CREATE TABLE passing AS SELECT * FROM findings"_s, {}));
        QVERIFY(storage::write(file.store(), u"DROP TABLE passing"_s, {}));
        file.close();
        const auto access = file.access();
        const QByteArray sound = *base::read(file.path(), 100'000'000);
        const auto held = everythingIn(file.path(), access);
        QVERIFY(held && held->size() > 20'000);

        QFile altered(file.path());
        QVERIFY(altered.open(QIODevice::ReadWrite | QIODevice::Unbuffered));
        QRandomGenerator random(20261130);
        int whenRead = 0;
        for (int i = 0; i < times; ++i) {
            const qint64 place = qint64(random.bounded(quint32(sound.size())));
            const auto flip = char(1 + random.bounded(255));
            const auto put = [&](char byte) { return altered.seek(place) && altered.putChar(byte); };
            QVERIFY(put(char(sound.at(place) ^ flip)));
            const QString where = u"byte %1 altered by %2"_s.arg(place).arg(int(flip) & 0xff);
            const auto found = everythingIn(file.path(), access);
            QVERIFY2(!found || *found == *held, qPrintable(where));
            whenRead += found ? 0 : 1;
            const auto store = Store::open(file.path(), access, Opening::ToRead);
            const auto faults = store ? (*store)->fileFaults() : store.error();
            QVERIFY2(!faults || !faults->isEmpty(), qPrintable(where));
            QVERIFY(put(sound.at(place)));
        }
        QVERIFY(everythingIn(file.path(), access) == held);
        qInfo(
            "%d of %lld bytes altered: all noticed by a check, %d already when the records were read, and no "
            "answer changed",
            times, sound.size(), whenRead);
    }
};

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    const bool isWhole = argc == 2 && qstrcmp(argv[1], "whole") == 0;
    times = isWhole ? 10'000 : times;
    TestAlteredBytes test;
    return QTest::qExec(&test, isWhole ? 1 : argc, argv);
}

#include "test_altered_bytes.moc"
