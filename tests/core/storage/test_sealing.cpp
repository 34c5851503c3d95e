#include "core/storage/sealing.h"
#include "tests/support/places.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

#include <QProcess>
#include <QSqlQuery>

#include <sqlite3.h>

using namespace Qt::StringLiterals;

namespace test_sealing
{

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
};

HOUSE_TEST(TestSealing)

} // namespace test_sealing

#include "test_sealing.moc"
