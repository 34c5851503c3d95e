#include "app/shell/ribbon_scale.h"

#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_ribbon_scale
{

class TestRibbonScale : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void distancesAreTrueToTime();
    void oneVisitStillHasAnAxis();
    void aFutureVisitStaysOnTheAxis();
    void yearsAreNamedOnce();
    void monthsComeWhereThereIsRoom();
    void theYearIsSaidEvenWithinOne();
    void marksOfOneWeekAreMovedApart();
    void aHundredVisitsStayInsideTheAxis();
};

void TestRibbonScale::distancesAreTrueToTime()
{
    const QDate first(2024, 1, 1);
    const auto scale =
        shell::ribbonScale({first, first.addDays(100), first.addDays(300)}, first.addDays(400), 0, 800);
    const double ratio =
        (scale.x(first.addDays(300)) - scale.x(first)) / (scale.x(first.addDays(100)) - scale.x(first));
    QVERIFY(std::abs(ratio - 3) < 1e-9);
}

void TestRibbonScale::oneVisitStillHasAnAxis()
{
    const QDate day(2026, 3, 12);
    const auto scale = shell::ribbonScale({day}, day, 20, 820);
    QVERIFY(scale.x(day) > 20);
    QVERIFY(scale.x(day) < 820);
    QVERIFY(scale.from.daysTo(scale.to) >= 183);
}

void TestRibbonScale::aFutureVisitStaysOnTheAxis()
{
    const QDate today(2026, 3, 12);
    const auto scale = shell::ribbonScale({today.addDays(30)}, today, 0, 500);
    QVERIFY(scale.x(today.addDays(30)) <= 500);
}

void TestRibbonScale::yearsAreNamedOnce()
{
    const auto scale = shell::ribbonScale({QDate(2022, 5, 1)}, QDate(2026, 3, 12), 0, 900);
    QStringList years;
    for (const auto& tick : shell::ticks(scale)) {
        if (tick.isYear)
            years += tick.word;
    }
    QCOMPARE(years, QStringList({u"2023"_s, u"2024"_s, u"2025"_s, u"2026"_s}));
}

void TestRibbonScale::monthsComeWhereThereIsRoom()
{
    const auto wide = shell::ticks(shell::ribbonScale({QDate(2025, 10, 1)}, QDate(2026, 3, 12), 0, 900));
    QVERIFY(std::ranges::any_of(wide, [](const shell::Tick& tick) { return tick.word == u"Dec"_s; }));
    const auto narrow = shell::ticks(shell::ribbonScale({QDate(2010, 10, 1)}, QDate(2026, 3, 12), 0, 600));
    QVERIFY(std::ranges::all_of(narrow, &shell::Tick::isYear));
}

void TestRibbonScale::theYearIsSaidEvenWithinOne()
{
    const auto ticks = shell::ticks(shell::ribbonScale({QDate(2026, 4, 2)}, QDate(2026, 11, 2), 0, 900));
    QVERIFY(std::ranges::none_of(ticks, &shell::Tick::isYear));
    QCOMPARE(ticks.front().word, u"Apr 2026"_s);
}

void TestRibbonScale::marksOfOneWeekAreMovedApart()
{
    const QDate first(2022, 5, 1);
    const std::vector<QDate> days = {first, first.addDays(2), first.addDays(4), first.addDays(900)};
    const auto scale = shell::ribbonScale(days, first.addDays(900), 0, 800);
    const auto places = shell::places(scale, days, 16);
    for (size_t i = 1; i < places.size(); ++i)
        QVERIFY(places[i] - places[i - 1] >= 16 - 1e-9);
    QVERIFY(std::abs(places.back() - scale.x(days.back())) < 1e-9);
}

void TestRibbonScale::aHundredVisitsStayInsideTheAxis()
{
    const QDate first(2020, 1, 1);
    std::vector<QDate> days;
    for (int i = 0; i < 100; ++i)
        days.push_back(first.addDays(i < 50 ? i : i * 20));
    const auto scale = shell::ribbonScale(days, days.back(), 28, 900);
    const auto places = shell::places(scale, days, 16);
    QVERIFY(std::ranges::is_sorted(places));
    QVERIFY(places.front() >= 28 - 1e-9);
    QVERIFY(places.back() <= 900 + 1e-9);
}

HOUSE_TEST(TestRibbonScale)

} // namespace test_ribbon_scale

#include "test_ribbon_scale.moc"
