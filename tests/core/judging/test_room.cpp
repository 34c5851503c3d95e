#include "core/judging/room.h"

#include "core/judging/change.h"
#include "core/telling/wording.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_room
{

using catalogue::Direction;
using catalogue::Scale;
using judging::Applied;
using judging::CannotShow;
using judging::Comparison;
using judging::Verdict;
using values::Quantity;
using values::Unit;

const QString berg = u"berg-balance"_s;
const QString hold = u"romberg-eyes-closed"_s;

Comparison compared(const QString& measure, Unit unit, double before, double now, const QString& population)
{
    const std::vector visits{
        examples::visit(u"a"_s, {2026, 1, 6}, {examples::finding(measure, Quantity{before, unit})}),
        examples::visit(u"b"_s, {2026, 3, 6}, {examples::finding(measure, Quantity{now, unit})})};
    return *judging::changesAt(visits[1].id, {}, visits, examples::patient(population), examples::catalogue())
                .front()
                .previous;
}

Applied limit(Scale scale, double better, double worse, double factor = 1)
{
    Applied threshold;
    threshold.row = examples::threshold(u"x"_s, berg, u"stroke"_s, better, u"hosoi"_s, 20);
    threshold.row.decline = worse;
    threshold.row.scale = scale;
    threshold.factor = factor;
    return threshold;
}

class TestRoom : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aChangeShowsWhereTheScaleHasRoomForMoreThanTheLimit_data();
    void aChangeShowsWhereTheScaleHasRoomForMoreThanTheLimit();
    void theVerdictStays();
    void theCapIsAnEnd();
    void aResultAtTheCapIsKnownByItsNumberToo();
    void withoutAThresholdNothingIsSaid();
    void theValueAtTheLimit_data();
    void theValueAtTheLimit();
    void aDifferenceInLimitsIsPositiveForTheBetter();
};

void TestRoom::aChangeShowsWhereTheScaleHasRoomForMoreThanTheLimit_data()
{
    QTest::addColumn<double>("reference");
    QTest::addColumn<bool>("better");
    QTest::addColumn<bool>("worse");
    // Steffen & Seney 2008, Phys Ther 88:733: 5 points; the scale goes from 0 to 56.
    QTest::newRow("room both ways") << 30.0 << false << false;
    QTest::newRow("one more than the limit") << 50.0 << false << false;
    QTest::newRow("just the limit") << 51.0 << true << false;
    QTest::newRow("at the top") << 56.0 << true << false;
    QTest::newRow("just the limit below") << 5.0 << false << true;
    QTest::newRow("one more below") << 6.0 << false << false;
}

void TestRoom::aChangeShowsWhereTheScaleHasRoomForMoreThanTheLimit()
{
    QFETCH(double, reference);
    QFETCH(bool, better);
    QFETCH(bool, worse);
    const Comparison held = compared(berg, Unit::Score, reference, reference, u"parkinson"_s);
    QCOMPARE(held.cannotShow, (CannotShow{better, worse}));
}

void TestRoom::theVerdictStays()
{
    const Comparison near = compared(berg, Unit::Score, 54, 55, u"parkinson"_s);
    QCOMPARE(near.verdict, Verdict::WithinError);
    QCOMPARE(telling::verdictWords(near, {}), u"within error; better could not show here"_s);
    QVERIFY(telling::why(near, examples::catalogue(), {})
                .endsWith(u"A change for the better could not show here: the scale ends before one is beyond "
                          "error."_s));
    const Comparison fell = compared(berg, Unit::Score, 54, 40, u"parkinson"_s);
    QVERIFY(fell.cannotShow.better);
    QCOMPARE(telling::verdictWords(fell, {}), telling::written(fell.verdict, {}));
    QVERIFY(telling::cannotShowWords(fell, {}).isEmpty());
}

void TestRoom::theCapIsAnEnd()
{
    // Steffen & Seney 2008, from memory: 19 s; a trial ends at 60 s.
    QCOMPARE(compared(hold, Unit::Second, 7.9, 8.2, u"parkinson"_s).cannotShow, (CannotShow{false, true}));
    QCOMPARE(compared(hold, Unit::Second, 45, 46, u"parkinson"_s).cannotShow, (CannotShow{true, false}));
    catalogue::Measure measure = *examples::catalogue().measure(hold);
    measure.cap = 30;
    QCOMPARE(judging::cannotShow(limit(Scale::Absolute, 24.1, 24.1), 7.9, measure), (CannotShow{true, true}));
    measure.cap.reset();
    measure.highest.reset();
    measure.lowest.reset();
    QCOMPARE(judging::cannotShow(limit(Scale::Absolute, 24.1, 24.1), 7.9, measure), CannotShow());
}

void TestRoom::aResultAtTheCapIsKnownByItsNumberToo()
{
    const catalogue::Measure measure = *examples::catalogue().measure(hold);
    records::Finding finding = examples::finding(hold, Quantity{59.9, Unit::Second});
    QVERIFY(!judging::isAtCap(finding, measure));
    finding.capReached = true;
    QVERIFY(judging::isAtCap(finding, measure));
    QVERIFY(judging::isAtCap(examples::finding(hold, Quantity{60, Unit::Second}), measure));
    QVERIFY(!judging::isAtCap(examples::finding(berg, Quantity{56, Unit::Score}),
                              *examples::catalogue().measure(berg)));
}

void TestRoom::withoutAThresholdNothingIsSaid()
{
    const Comparison held = compared(berg, Unit::Score, 56, 56, u"cerebellar-ataxia"_s);
    QVERIFY(!held.threshold);
    QCOMPARE(held.cannotShow, CannotShow());
}

void TestRoom::theValueAtTheLimit_data()
{
    QTest::addColumn<Scale>("scale");
    QTest::addColumn<double>("limit");
    QTest::addColumn<double>("factor");
    QTest::addColumn<double>("up");
    QTest::addColumn<double>("down");
    // Solved by hand at a reference of 10: the difference there equals the limit.
    QTest::newRow("absolute") << Scale::Absolute << 2.0 << 1.0 << 12.0 << 8.0;
    QTest::newRow("means of two trials") << Scale::Absolute << 2.0 << 0.5 << 11.0 << 9.0;
    QTest::newRow("percent") << Scale::PercentOfReference << 20.0 << 1.0 << 12.0 << 8.0;
    QTest::newRow("share of the mean") << Scale::ProportionalToMean << 0.2 << 1.0 << 11 / 0.9 << 9 / 1.1;
    QTest::newRow("logarithm") << Scale::Log << 0.2 << 1.0 << 10 * std::exp(0.2) << 10 * std::exp(-0.2);
}

void TestRoom::theValueAtTheLimit()
{
    QFETCH(Scale, scale);
    QFETCH(double, limit);
    QFETCH(double, factor);
    QFETCH(double, up);
    QFETCH(double, down);
    const Applied threshold = test_room::limit(scale, limit, limit, factor);
    using judging::valueAtLimit;
    QVERIFY(qAbs(valueAtLimit(threshold, 10, true, Direction::HigherIsBetter) - up) < 1e-9);
    QVERIFY(qAbs(valueAtLimit(threshold, 10, false, Direction::HigherIsBetter) - down) < 1e-9);
    QVERIFY(qAbs(valueAtLimit(threshold, 10, true, Direction::LowerIsBetter) - down) < 1e-9);
    QVERIFY(qAbs(valueAtLimit(threshold, 10, false, Direction::LowerIsBetter) - up) < 1e-9);
    QVERIFY(std::isinf(valueAtLimit(test_room::limit(Scale::PercentOfReference, 20, 20), 0, true,
                                    Direction::HigherIsBetter)));
}

void TestRoom::aDifferenceInLimitsIsPositiveForTheBetter()
{
    const Comparison up = compared(berg, Unit::Score, 40, 50, u"parkinson"_s);
    QCOMPARE(judging::inLimits(up, Direction::HigherIsBetter), 2.0);
    QCOMPARE(judging::inLimits(up, Direction::LowerIsBetter), -2.0);
    QVERIFY(!judging::inLimits(up, Direction::Neither));
    QVERIFY(!judging::inLimits(compared(berg, Unit::Score, 40, 50, u"cerebellar-ataxia"_s),
                               Direction::HigherIsBetter));
}

HOUSE_TEST(TestRoom)

} // namespace test_room

#include "test_room.moc"
