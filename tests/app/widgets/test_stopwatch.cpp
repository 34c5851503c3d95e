#include "app/widgets/stopwatch.h"

#include "tests/support/test_support.h"

#include <QSignalSpy>

using namespace Qt::StringLiterals;

namespace test_stopwatch
{

using widgets::Stopwatch;

/// A stopwatch at a clock that stands until it is moved.
struct Timing {
    qint64 now = 5'000;
    Stopwatch watch{[this] { return now; }, nullptr};
    QSignalSpy stopped{&watch, &Stopwatch::stopped};
    QSignalSpy lapped{&watch, &Stopwatch::lapped};
    QSignalSpy capped{&watch, &Stopwatch::capped};
};

class TestStopwatch : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void itTellsHowLongItRan()
    {
        Timing timing;
        timing.watch.toggle();
        timing.now += 7'912;
        timing.watch.toggle();
        QCOMPARE(timing.stopped.size(), 1);
        QCOMPARE(timing.stopped.first().first().toLongLong(), 7'912);
        QVERIFY(!timing.watch.isRunning());
    }

    void aLapIsATimeAndTheClockRunsOn()
    {
        Timing timing;
        timing.watch.lap(); // nothing runs
        timing.watch.toggle();
        timing.now += 6'100;
        timing.watch.lap();
        timing.now += 5'900;
        timing.watch.toggle();
        QCOMPARE(timing.lapped.size(), 1);
        QCOMPARE(timing.lapped.first().first().toLongLong(), 6'100);
        QCOMPARE(timing.stopped.first().first().toLongLong(), 5'900);
    }

    void theCapStopsIt()
    {
        Timing timing;
        timing.watch.setCap(60'000);
        timing.watch.toggle();
        timing.now += 59'999;
        timing.watch.lap(); // looks, and then counts from here
        QCOMPARE(timing.capped.size(), 0);
        timing.now += 59'999;
        timing.now += 1;
        QTRY_COMPARE(timing.capped.size(), 1);
        QVERIFY(!timing.watch.isRunning());
        QCOMPARE(timing.stopped.size(), 0);
    }

    /// A key that comes after the cap and before the clock looked is no time above it.
    void aKeyAfterTheCapIsTheCap()
    {
        Timing timing;
        timing.watch.setCap(60'000);
        timing.watch.toggle();
        timing.now += 60'400;
        timing.watch.toggle();
        QCOMPARE(timing.capped.size(), 1);
        QCOMPARE(timing.stopped.size(), 0);
    }

    void whatIsDroppedIsToldNobody()
    {
        Timing timing;
        timing.watch.toggle();
        timing.now += 3'000;
        timing.watch.cancel();
        QVERIFY(!timing.watch.isRunning());
        QCOMPARE(timing.watch.ran(), 0);
        QCOMPARE(timing.stopped.size() + timing.lapped.size() + timing.capped.size(), 0);
    }
};

HOUSE_TEST(TestStopwatch)

} // namespace test_stopwatch

#include "test_stopwatch.moc"
