#include "app/widgets/tap_counter.h"

#include "tests/support/test_support.h"

#include <QSignalSpy>

using namespace Qt::StringLiterals;

namespace test_tap_counter
{

using widgets::TapCounter;

using Taps = std::vector<double>;

/// A counter whose clock stands until it is moved.
struct Counter {
    qint64 now = 5'000;
    TapCounter key{[this] { return now; }, nullptr};
    std::vector<Taps> told;

    Counter()
    {
        QObject::connect(&key, &TapCounter::counted, &key,
                         [this](const Taps& taps) { told.push_back(taps); });
    }
    void tapAt(qint64 milliseconds, Qt::Key with = Qt::Key_Space)
    {
        now = 5'000 + milliseconds;
        QTest::keyClick(&key, with);
    }
};

class TestTapCounter : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void tapsAreKeptInSecondsFromTheFirst();
    void everyWayOfTappingCounts();
    void aHeldKeyIsOneTap();
    void theRunEndsByItself();
    void aCountThatIsDoneIsLockedUntilAnotherIsAskedFor();
    void aCountThatStandsIsNotBegunAnew();
    void leavingTheKeyDropsTheRun();
    void tabGoesOnFromWhatIsCountedFor();
    void escapeDropsTheRun();
};

void TestTapCounter::tapsAreKeptInSecondsFromTheFirst()
{
    Counter counter;
    for (const qint64 at : {0, 250, 600, 9'999, 10'000})
        counter.tapAt(at);
    QCOMPARE(counter.told, (std::vector<Taps>{{0, 0.25, 0.6, 9.999}}));
    QVERIFY(!counter.key.isRunning());
}

void TestTapCounter::everyWayOfTappingCounts()
{
    Counter counter;
    counter.tapAt(0);
    counter.tapAt(100, Qt::Key_Return);
    counter.tapAt(200, Qt::Key_Enter);
    counter.now += 100;
    QTest::mouseClick(&counter.key, Qt::LeftButton);
    counter.tapAt(10'000);
    QCOMPARE(counter.told, (std::vector<Taps>{{0, 0.1, 0.2, 0.3}}));
}

void TestTapCounter::aHeldKeyIsOneTap()
{
    Counter counter;
    counter.tapAt(0);
    counter.now += 500;
    QKeyEvent held(QEvent::KeyPress, Qt::Key_Space, Qt::NoModifier, u" "_s, true);
    QCoreApplication::sendEvent(&counter.key, &held);
    counter.tapAt(10'000);
    QCOMPARE(counter.told, (std::vector<Taps>{{0}}));
}

void TestTapCounter::theRunEndsByItself()
{
    Counter counter;
    counter.tapAt(0);
    counter.tapAt(400);
    counter.now = 5'000 + TapCounter::runMs;
    QTRY_COMPARE(counter.told, (std::vector<Taps>{{0, 0.4}}));
}

void TestTapCounter::aCountThatIsDoneIsLockedUntilAnotherIsAskedFor()
{
    Counter counter;
    for (const qint64 at : {0, 400, 10'000, 10'300, 11'999, 12'000, 60'000})
        counter.tapAt(at);
    QVERIFY(!counter.key.isRunning());
    QVERIFY(counter.key.isLocked());
    QCOMPARE(counter.told, (std::vector<Taps>{{0, 0.4}}));
    counter.key.countAgain();
    counter.tapAt(61'000);
    QVERIFY(counter.key.isRunning());
    counter.tapAt(71'000);
    QCOMPARE(counter.told.size(), 2U);
}

void TestTapCounter::aCountThatStandsIsNotBegunAnew()
{
    Counter counter;
    counter.key.setStanding(32);
    counter.tapAt(0);
    QVERIFY(!counter.key.isRunning());
    counter.key.countAgain();
    counter.tapAt(100);
    counter.tapAt(200, Qt::Key_Escape);
    counter.tapAt(300);
    QVERIFY(!counter.key.isRunning());
    counter.key.setStanding(std::nullopt);
    counter.tapAt(400);
    QVERIFY(counter.key.isRunning());
}

void TestTapCounter::leavingTheKeyDropsTheRun()
{
    Counter counter;
    QSignalSpy dropped(&counter.key, &TapCounter::dropped);
    counter.tapAt(0);
    QFocusEvent away(QEvent::FocusOut, Qt::MouseFocusReason);
    QCoreApplication::sendEvent(&counter.key, &away);
    QVERIFY(!counter.key.isRunning());
    QCOMPARE(dropped.size(), 1);
    QVERIFY(counter.told.empty());
    counter.tapAt(1'000);
    QFocusEvent elsewhere(QEvent::FocusOut, Qt::ActiveWindowFocusReason);
    QCoreApplication::sendEvent(&counter.key, &elsewhere);
    QVERIFY(counter.key.isRunning());
}

void TestTapCounter::tabGoesOnFromWhatIsCountedFor()
{
    Counter counter;
    QSignalSpy passed(&counter.key, &TapCounter::passed);
    QTest::keyClick(&counter.key, Qt::Key_Tab);
    QTest::keyClick(&counter.key, Qt::Key_Backtab);
    QCOMPARE(passed.size(), 2);
    QCOMPARE(passed[0][0].toBool(), true);
    QCOMPARE(passed[1][0].toBool(), false);
}

void TestTapCounter::escapeDropsTheRun()
{
    Counter counter;
    counter.tapAt(0);
    counter.tapAt(300, Qt::Key_Escape);
    QVERIFY(!counter.key.isRunning());
    counter.tapAt(600);
    counter.tapAt(10'600);
    QCOMPARE(counter.told, (std::vector<Taps>{{0}}));
}

HOUSE_TEST(TestTapCounter)

} // namespace test_tap_counter

#include "test_tap_counter.moc"
