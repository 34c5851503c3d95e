#include "app/charts/time_window.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_time_window
{

using charts::TimeWindow;

const charts::Axis year{1000, 1400, {}};

class TestTimeWindow : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void itBeginsWithTheWhole();
    void aDayStaysInItsPlaceWhileItZooms();
    void itNeverLeavesTheAxis();
    void fourWeeksAreTheLeast();
    void aShortAxisStaysWhole();
};

void TestTimeWindow::itBeginsWithTheWhole()
{
    TimeWindow window(year);
    QVERIFY(window.isWhole());
    window.stretch(0.5, 1200);
    QVERIFY(!window.isWhole());
    window.showAll();
    QVERIFY(window.isWhole());
    QVERIFY(window.isOf(year));
    QVERIFY(!window.isOf({1000, 1401, {}}));
}

void TestTimeWindow::aDayStaysInItsPlaceWhileItZooms()
{
    TimeWindow window(year);
    window.stretch(0.5, 1100);
    QCOMPARE(window.days(), 200.0);
    QCOMPARE((1100 - window.from()) / window.days(), 0.25);
    window.stretch(1, 1390); // beside the plot
    QCOMPARE((1100 - window.from()) / window.days(), 0.25);
    window.stretch(2, 1100);
    QVERIFY(window.isWhole());
}

void TestTimeWindow::itNeverLeavesTheAxis()
{
    TimeWindow window(year);
    window.move(50);
    QVERIFY(window.isWhole());
    window.stretch(0.25, 1200);
    window.move(1000);
    QCOMPARE(window.to(), 1400.0);
    QCOMPARE(window.days(), 100.0);
    window.move(-1000);
    QCOMPARE(window.from(), 1000.0);
    window.stretch(2, 1000);
    QCOMPARE(window.from(), 1000.0);
    window.stretch(100, 1000);
    QVERIFY(window.isWhole());
}

void TestTimeWindow::fourWeeksAreTheLeast()
{
    TimeWindow window(year);
    for (int again = 0; again < 20; ++again)
        window.stretch(0.5, 1300);
    QCOMPARE(window.days(), 28.0);
    QVERIFY(window.from() < 1300 && window.to() > 1300);
}

void TestTimeWindow::aShortAxisStaysWhole()
{
    TimeWindow window({1000, 1020, {}});
    window.stretch(0.5, 1010);
    QVERIFY(window.isWhole());
}

HOUSE_TEST(TestTimeWindow)

} // namespace test_time_window

#include "test_time_window.moc"
