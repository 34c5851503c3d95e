#include "core/records/short_battery.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_short_battery
{

/// The tables as published: Guralnik 1994, J Gerontol 49:M85. From memory: 6.20 and 6.21 s of the 4 m course,
/// the whole table of the 3 m course, and 60 s as the longest time of five rises.
class TestShortBattery : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void balanceIsScoredFromTheHardestHold_data();
    void balanceIsScoredFromTheHardestHold();
    void fourAndThreeMetresAreScoredAsTheirOwnTablesSay_data();
    void fourAndThreeMetresAreScoredAsTheirOwnTablesSay();
    void everyHundredthOnThreeMetresAgreesWithItsTable();
    void noWalkScoresNothing();
    void risesAreScoredByTheirTime_data();
    void risesAreScoredByTheirTime();
};

void TestShortBattery::balanceIsScoredFromTheHardestHold_data()
{
    QTest::addColumn<double>("together");
    QTest::addColumn<double>("semiTandem");
    QTest::addColumn<double>("tandem");
    QTest::addColumn<int>("score");
    QTest::newRow("no hold") << 0.0 << 0.0 << 0.0 << 0;
    QTest::newRow("together under 10 s") << 9.99 << 10.0 << 10.0 << 0;
    QTest::newRow("together only") << 10.0 << 0.0 << 0.0 << 1;
    QTest::newRow("semi-tandem under 10 s") << 10.0 << 9.99 << 10.0 << 1;
    QTest::newRow("semi-tandem held") << 10.0 << 10.0 << 0.0 << 2;
    QTest::newRow("tandem under 3 s") << 10.0 << 10.0 << 2.99 << 2;
    QTest::newRow("tandem 3 s") << 10.0 << 10.0 << 3.0 << 3;
    QTest::newRow("tandem under 10 s") << 10.0 << 10.0 << 9.99 << 3;
    QTest::newRow("tandem 10 s") << 10.0 << 10.0 << 10.0 << 4;
    QTest::newRow("held longer than asked") << 30.0 << 30.0 << 60.0 << 4;
}

void TestShortBattery::balanceIsScoredFromTheHardestHold()
{
    QFETCH(double, together);
    QFETCH(double, semiTandem);
    QFETCH(double, tandem);
    QTEST(records::balanceScore(together, semiTandem, tandem), "score");
}

void TestShortBattery::fourAndThreeMetresAreScoredAsTheirOwnTablesSay_data()
{
    QTest::addColumn<double>("metres");
    QTest::addColumn<double>("seconds");
    QTest::addColumn<int>("score");
    for (const auto& [metres, seconds, score] :
         {std::tuple(4.0, 1.00, 4), std::tuple(4.0, 4.81, 4), std::tuple(4.0, 4.82, 3),
          std::tuple(4.0, 6.20, 3), std::tuple(4.0, 6.21, 2), std::tuple(4.0, 8.70, 2),
          std::tuple(4.0, 8.71, 1), std::tuple(4.0, 60.0, 1), std::tuple(3.0, 1.00, 4),
          std::tuple(3.0, 3.61, 4), std::tuple(3.0, 3.62, 3), std::tuple(3.0, 4.65, 3),
          std::tuple(3.0, 4.66, 2), std::tuple(3.0, 6.52, 2), std::tuple(3.0, 6.53, 1),
          std::tuple(3.0, 60.0, 1)})
        QTest::addRow("%g m in %.2f s", metres, seconds) << metres << seconds << score;
}

void TestShortBattery::fourAndThreeMetresAreScoredAsTheirOwnTablesSay()
{
    QFETCH(double, metres);
    QFETCH(double, seconds);
    QTEST(records::walkScore(metres / seconds), "score");
}

void TestShortBattery::everyHundredthOnThreeMetresAgreesWithItsTable()
{
    for (int hundredths = 100; hundredths <= 2000; ++hundredths) {
        const int printed = hundredths < 362 ? 4 : hundredths <= 465 ? 3 : hundredths <= 652 ? 2 : 1;
        QCOMPARE(records::walkScore(3 / (hundredths / 100.0)), printed);
    }
}

void TestShortBattery::noWalkScoresNothing()
{
    QCOMPARE(records::walkScore({}), 0);
    QCOMPARE(records::walkScore(0), 0);
}

void TestShortBattery::risesAreScoredByTheirTime_data()
{
    QTest::addColumn<double>("seconds");
    QTest::addColumn<int>("score");
    for (const auto& [seconds, score] : {std::pair(5.0, 4), std::pair(11.19, 4), std::pair(11.20, 3),
                                         std::pair(13.69, 3), std::pair(13.70, 2), std::pair(16.69, 2),
                                         std::pair(16.70, 1), std::pair(60.0, 1), std::pair(60.1, 0)})
        QTest::addRow("%.2f s", seconds) << seconds << score;
}

void TestShortBattery::risesAreScoredByTheirTime()
{
    QFETCH(double, seconds);
    QTEST(records::risesScore(seconds), "score");
    QCOMPARE(records::risesScore({}), 0);
}

HOUSE_TEST(TestShortBattery)

} // namespace test_short_battery

#include "test_short_battery.moc"
