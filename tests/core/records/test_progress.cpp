#include "core/records/progress.h"

#include "tests/support/test_support.h"

#include <vector>

namespace test_progress
{

class TestProgress : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aPartOfTheWorkIsToldAsItsShare()
    {
        std::vector<int> told;
        const records::Progress part = records::share(
            [&](int percent) {
                told.push_back(percent);
                return percent < 60;
            },
            30, 90);
        QVERIFY(part(0) && part(49));
        QVERIFY(!part(50) && !part(100));
        QCOMPARE(told, (std::vector{30, 59, 60, 90}));
        QVERIFY(!records::share({}, 0, 50));
    }

    void itGoesOnUntilSomeoneStopsIt()
    {
        std::vector<int> told;
        const records::Progress progress = [&](int percent) {
            told.push_back(percent);
            return percent != 50;
        };
        QVERIFY(records::goesOn(progress, 0, 4) && records::goesOn(progress, 1, 4));
        QVERIFY(!records::goesOn(progress, 2, 4));
        QVERIFY(records::goesOn(progress, 0, 0)); // nothing to do is no fault
        QCOMPARE(told, (std::vector{0, 25, 50, 0}));
        QVERIFY(records::goesOn({}, 1, 4));
    }

    void theRestTakesAsLongAsTheRestOfTheWork_data()
    {
        QTest::addColumn<qint64>("elapsed");
        QTest::addColumn<int>("done");
        QTest::addColumn<int>("seconds"); // 0: not told
        const auto add = [](const char* name, qint64 elapsed, int done, int seconds) {
            QTest::newRow(name) << elapsed << done << seconds;
        };
        add("half", 10'000, 50, 11);
        add("a begun second counts", 10'400, 50, 11);
        add("nearly done", 2'000, 99, 1);
        add("a twentieth", 1'000, 5, 20);
        add("too early", 1'000, 4, 0);
        add("nothing done", 1'000, 0, 0);
        add("all done", 1'000, 100, 0);
    }

    void theRestTakesAsLongAsTheRestOfTheWork()
    {
        QFETCH(const qint64, elapsed);
        QFETCH(const int, done);
        QFETCH(const int, seconds);
        QCOMPARE(records::secondsLeft(elapsed, done, 100).value_or(0), seconds);
    }

    void ofNothingNothingIsLeft() { QVERIFY(!records::secondsLeft(1'000, 0, 0)); }
};

HOUSE_TEST(TestProgress)

} // namespace test_progress

#include "test_progress.moc"
