#include "core/storage/watch.h"

#include "core/storage/query.h"
#include "core/storage/statements.h"
#include "tests/support/records_file.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_watch
{

using storage::Watch;

/// A statement of many steps.
base::Result<std::optional<qint64>> counted(const storage::Store& store)
{
    return storage::readWhole(
        store,
        u"WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 20000) "
        "SELECT COUNT(*) FROM n"_s,
        {});
}

class TestWatch : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void itIsAskedWhileItLives()
    {
        RecordsFile file;
        sqlite3* database = file.store().statements().database();
        int asked = 0;
        {
            const Watch watch(database, [&] { return ++asked > 0; });
            QCOMPARE(counted(file.store())->value_or(0), 20000);
            QVERIFY(asked > 3);
        }
        const int before = asked;
        QVERIFY(counted(file.store()));
        QCOMPARE(asked, before);
    }

    void whoIsStoppedIsAsBefore()
    {
        RecordsFile file;
        {
            const Watch watch(file.store().statements().database(), [] { return false; });
            const auto stopped = counted(file.store());
            QVERIFY(!stopped);
            QCOMPARE(stopped.error().what.english(), base::stopped().what.english());
        }
        QCOMPARE(counted(file.store())->value_or(0), 20000);
    }

    /// A store that lost its file has none, and says so itself.
    void whereThereIsNothingToWatchNobodyIsAsked()
    {
        const Watch ofNoDatabase(nullptr, [] { return false; });
        const Watch ofNeither(nullptr, {});
    }

    void oneThatAsksNobodyLeavesAnotherAlone()
    {
        RecordsFile file;
        sqlite3* database = file.store().statements().database();
        int asked = 0;
        const Watch watch(database, [&] { return ++asked > 0; });
        {
            const Watch silent(database, {});
        }
        QVERIFY(counted(file.store()));
        QVERIFY(asked > 3);
    }
};

HOUSE_TEST(TestWatch)

} // namespace test_watch

#include "test_watch.moc"
