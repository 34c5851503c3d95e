#include "core/base/file.h"
#include "core/storage/migrations.h"
#include "core/storage/query.h"
#include "core/storage/sealing.h"
#include "core/storage/visits.h"
#include "tests/support/places.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <QProcess>
#include <QRandomGenerator>
#include <QTemporaryDir>

using namespace Qt::StringLiterals;
using records::Opening;
using storage::Store;

namespace
{

/// How often it is killed; `killed_while_migrating whole` does it 100 times.
int kills = 15;
constexpr int findings = 4000;

const storage::Access tester{u"tester"_s, [] { return QDateTime(QDate(2026, 3, 1), QTime(9, 0), Qt::UTC); }};

std::vector<storage::Migration> before(int version)
{
    auto chain = storage::chain(u":/schema"_s);
    std::erase_if(chain, [&](const storage::Migration& one) { return one.version >= version; });
    return chain;
}

/// The newest fixture with many findings in its draft.
bool makeOlder(const QString& path)
{
    if (!QFile::copy(places::inSource(u"tests/data/schema-9.aplomb"_s), path) ||
        !QFile::setPermissions(path, QFile::ReadOwner | QFile::WriteOwner))
        return false;
    const auto store = Store::open(path, tester, Opening::MustExist, before(10));
    const QString numbers =
        u"WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < %1) "_s;
    const auto run = [&](const QString& sql) {
        return bool(storage::write(**store, numbers.arg(findings) + sql, {}));
    };
    return store &&
           run(u"INSERT INTO findings SELECT 'f' || i, 1, visits.id, i + 1, 'm' || i, 'none', 'done', i / "
               u"7.0, 's', "
               "NULL, NULL, '', 0, '', 'note ' || i FROM n, visits WHERE visits.state = 'draft'"_s) &&
           run(u"INSERT INTO trials SELECT 'f' || i, 1, i / 7.0 FROM n"_s);
}

/// With the code of sealed records, "-" for plain ones.
storage::Access accessWith(const QString& code)
{
    storage::Access access = tester;
    access.seal = sealOf(code);
    return access;
}

/// Sealed records are of the newest schema, so one to come brings them up to date.
std::vector<storage::Migration> chainFor(const QString& code)
{
    auto chain = storage::chain(u":/schema"_s);
    if (code != u"-"_s)
        chain.push_back({chain.back().version + 1,
                         {u"CREATE TABLE later AS SELECT * FROM findings"_s,
                          u"CREATE INDEX later_by_measure ON later (measure)"_s}});
    return chain;
}

/// The same records sealed.
bool sealThem(const QString& path, const QString& code)
{
    const auto store = Store::open(path, tester, Opening::MustExist);
    return store && QFile::remove(path + u".version-9"_s) && (*store)->seal(*sealOf(code), {});
}

QStringList filesIn(const QString& folder)
{
    QStringList files = QDir(folder).entryList(QDir::Files | QDir::Hidden);
    files.removeIf([](const QString& name) { return name.endsWith(u".lock"_s); });
    return files;
}

} // namespace

class TestKilledWhileMigrating : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theOldOrTheNewFileIsThere_data()
    {
        QTest::addColumn<QString>("code");
        QTest::newRow("plain") << u"-"_s;
        if (storage::canSeal())
            QTest::newRow("sealed") << sealing::Key::made().code().join(QString());
    }

    void theOldOrTheNewFileIsThere()
    {
        QFETCH(QString, code);
        const bool isSealed = code != u"-"_s;
        const QTemporaryDir folder;
        const QString path = folder.filePath(u"records"_s);
        const QString pristine = folder.filePath(u"pristine"_s);
        QVERIFY(makeOlder(pristine));
        QVERIFY(!isSealed || sealThem(pristine, code));
        const auto chain = chainFor(code);
        const QString older = u".version-%1"_s.arg(isSealed ? chain.back().version - 1 : 9);
        const QByteArray old = *base::read(pristine, 100'000'000);

        double range =
            200; ///< a kill comes within it, ms; every outcome draws it nearer to twice the migration's time
        QRandomGenerator random(20261130);
        int oldFound = 0;
        int newFound = 0;
        for (int kill = 0; kill < kills; ++kill) {
            QVERIFY(QFile::copy(pristine, path));
            if (isSealed)
                QVERIFY(QFile::copy(pristine + u".keys"_s, path + u".keys"_s));
            QProcess migrating;
            migrating.start(QCoreApplication::applicationFilePath(), {u"open"_s, path, code});
            QVERIFY(migrating.waitForReadyRead());
            QThread::usleep(random.bounded(quint32(range * 1000)));
            migrating.kill();
            QVERIFY(migrating.waitForFinished());

            const bool isOld = *base::read(path, 100'000'000) == old;
            (isOld ? oldFound : newFound) += 1;
            range *= isOld ? 1.5 : 0.67;
            const auto store = Store::open(path, accessWith(code), Opening::MustExist, chain);
            QVERIFY2(store, store ? "" : qPrintable(store.error().what.english() + store.error().detail));
            const auto draft =
                storage::Visits(**store).ofPatient({u"11111111-0000-4000-8000-000000000002"_s});
            QVERIFY(draft);
            QCOMPARE(draft->front().findings.size(), size_t(findings + 1));
            QCOMPARE(draft->front().findings.back().trials, std::vector<double>{findings / 7.0});
            QCOMPARE(*base::read(path + older, 100'000'000), old);
            const QStringList unexpected =
                filesIn(folder.path())
                    .filter(QRegularExpression(u"^(?!(pristine|records|records\\.version-\\d+)(\\.keys)?$|"
                                               "records-wal$|records-shm$)"_s));
            QCOMPARE(unexpected.join(u' '), QString());
            for (const QString& name : filesIn(folder.path()).filter(u"records"_s))
                QVERIFY(QFile::remove(folder.filePath(name)));
        }
        QVERIFY2(oldFound >= 1 && newFound >= 1, qPrintable(u"%1 old, %2 new"_s.arg(oldFound).arg(newFound)));
        qInfo("%d kills: %d left the old file, %d the new", kills, oldFound, newFound);
    }
};

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    const QStringList arguments = QCoreApplication::arguments();
    if (arguments.size() == 4 && arguments[1] == u"open"_s) {
        std::puts("begun");
        std::fflush(stdout);
        return Store::open(arguments[2], accessWith(arguments[3]), Opening::MustExist, chainFor(arguments[3]))
                   ? 0
                   : 1;
    }
    const bool isWhole = arguments.value(1) == u"whole"_s;
    kills = isWhole ? 100 : kills;
    TestKilledWhileMigrating test;
    return QTest::qExec(&test, isWhole ? 1 : argc, argv);
}

#include "test_killed_while_migrating.moc"
