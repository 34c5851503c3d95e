#include "app/widgets/window_place.h"

#include "tests/support/test_support.h"

namespace test_window_place
{

class TestWindowPlace : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aWindowStandsWithinItsScreen_data();
    void aWindowStandsWithinItsScreen();
    void whereItFitsItStaysAsWished();
};

void TestWindowPlace::aWindowStandsWithinItsScreen_data()
{
    QTest::addColumn<QRect>("room");
    QTest::newRow("1366 x 768") << QRect(0, 0, 1366, 768);
    QTest::newRow("1366 x 768 with a bar above") << QRect(0, 32, 1366, 736);
    QTest::newRow("1366 x 768 at 125 %") << QRect(0, 0, 1093, 614);
    QTest::newRow("1366 x 768 at 150 %") << QRect(0, 0, 911, 512);
    QTest::newRow("1920 x 1080 at 200 %") << QRect(0, 0, 960, 540);
    QTest::newRow("the second of two screens") << QRect(1920, 120, 1366, 728);
}

void TestWindowPlace::aWindowStandsWithinItsScreen()
{
    QFETCH(const QRect, room);
    for (const QRect wished :
         {QRect(0, 0, 1280, 860), QRect(-50, -80, 3000, 2000), QRect(2500, 900, 700, 500)}) {
        const QRect found = widgets::fitted(wished, room);
        QVERIFY(room.contains(found));
        QVERIFY(found.top() - room.top() >= 30); // its title can be reached
        QVERIFY(found.width() >= std::min(wished.width(), room.width() - 10));
        QVERIFY(found.height() >= std::min(wished.height(), room.height() - 40));
    }
}

void TestWindowPlace::whereItFitsItStaysAsWished()
{
    const QRect wished(200, 100, 1280, 860);
    QCOMPARE(widgets::fitted(wished, QRect(0, 0, 1920, 1080)), wished);
}

HOUSE_TEST(TestWindowPlace)

} // namespace test_window_place

#include "test_window_place.moc"
