#include "core/records/derived.h"

#include "core/records/check.h"
#include "core/records/history.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_derived
{

using catalogue::Computing;
using catalogue::Kind;
using examples::finding;
using examples::unable;
using records::Finding;
using records::Occasion;
using records::Side;
using values::Quantity;
using values::Unit;

const auto lower = catalogue::Direction::LowerIsBetter;
const auto higher = catalogue::Direction::HigherIsBetter;
const QDate day(2026, 3, 12);

catalogue::Measure made(const QString& id, const QString& title, Kind kind, Unit unit, Computing rule,
                        const QStringList& parts)
{
    auto measure = examples::measure(id, title, kind, unit, higher, 0, 300, kind == Kind::Speed ? 0.01 : 0.5);
    measure.computed = {rule, parts};
    return measure;
}

/// Measures with parts: walking, three items of a scale, a battery, and the cost of a second task.
const catalogue::Catalogue& book()
{
    static const catalogue::Catalogue made = [] {
        catalogue::Catalogue book = examples::catalogue();
        const auto add = [&](const catalogue::Measure& measure) { book.measures.push_back(measure); };
        const auto timed = [](const QString& id, const QString& title) {
            return examples::measure(id, title, Kind::Duration, Unit::Second, lower, 0, 300, 0.01);
        };
        add(examples::measure(u"steps"_s, u"Steps"_s, Kind::Count, Unit::Steps, lower, 1, 200, 1));
        add(test_derived::made(u"rate"_s, u"Rate"_s, Kind::Rate, Unit::StepsPerMinute, Computing::Cadence,
                               {u"steps"_s, u"ten-metre-walk-time-comfortable"_s}));
        add(test_derived::made(u"step-length"_s, u"Step length"_s, Kind::Distance, Unit::Centimetre,
                               Computing::StepLength, {u"steps"_s}));
        add(examples::measure(u"gait"_s, u"Gait"_s, Kind::Score, Unit::Score, lower, 0, 8, 1));
        add(examples::measure(u"stance"_s, u"Stance"_s, Kind::Score, Unit::Score, lower, 0, 6, 1));
        add(examples::measure(u"heel"_s, u"Heel to shin"_s, Kind::Score, Unit::Score, lower, 0, 4, 1));
        book.measures.back().hasSides = true;
        add(test_derived::made(u"total"_s, u"Total"_s, Kind::Score, Unit::Score, Computing::SumOfItems,
                               {u"gait"_s, u"stance"_s, u"heel"_s}));
        add(timed(u"together"_s, u"Feet together"_s));
        add(timed(u"semi"_s, u"Semi-tandem"_s));
        add(timed(u"tandem"_s, u"Tandem"_s));
        add(timed(u"course"_s, u"Walk over a short course"_s));
        add(test_derived::made(u"course-speed"_s, u"Speed over a short course"_s, Kind::Speed,
                               Unit::MetrePerSecond, Computing::Speed, {u"course"_s}));
        add(timed(u"rises"_s, u"Five rises"_s));
        add(test_derived::made(u"battery"_s, u"Battery"_s, Kind::Score, Unit::Score, Computing::ShortBattery,
                               {u"together"_s, u"semi"_s, u"tandem"_s, u"course-speed"_s, u"rises"_s}));
        add(test_derived::made(u"heel-cost"_s, u"Cost of a heel"_s, Kind::Count, Unit::Percent,
                               Computing::DualTaskCost, {u"heel"_s, u"gait"_s}));
        add(timed(u"dual"_s, u"Walk with a task"_s));
        add(test_derived::made(u"cost"_s, u"Cost of the task"_s, Kind::Count, Unit::Percent,
                               Computing::DualTaskCost, {u"ten-metre-walk-time-comfortable"_s, u"dual"_s}));
        return book;
    }();
    return made;
}

Finding seconds(const QString& measure, double number)
{
    return finding(measure, Quantity{number, Unit::Second});
}

Finding walk(double number)
{
    return seconds(u"ten-metre-walk-time-comfortable"_s, number);
}

Finding steps(double number)
{
    return finding(u"steps"_s, Quantity{number, Unit::Steps});
}

Finding points(const QString& item, double number, Side side = Side::None)
{
    return finding(item, Quantity{number, Unit::Score}, side);
}

std::vector<Finding> allItems()
{
    return {points(u"gait"_s, 2), points(u"stance"_s, 1), points(u"heel"_s, 2, Side::Right),
            points(u"heel"_s, 1, Side::Left)};
}

std::vector<Finding> allOfTheBattery()
{
    auto rises = seconds(u"rises"_s, 17.2);
    rises.exceptions = {{u"timing_end"_s, u"standing"_s}};
    return {seconds(u"together"_s, 10), seconds(u"semi"_s, 10), seconds(u"tandem"_s, 4.5),
            seconds(u"course"_s, 4.66), rises};
}

records::Visit visitWith(const std::vector<Finding>& findings, records::Conditions conditions = {})
{
    return examples::visit(u"a"_s, day, findings, std::move(conditions));
}

std::optional<Occasion> computed(const QString& measure, const records::Visit& visit)
{
    return records::occasionAt(visit, book(), measure, Side::None);
}

double number(const std::optional<Occasion>& occasion)
{
    return occasion ? values::number(occasion->finding.value).value_or(-1) : -2;
}

QString missing(const std::optional<Occasion>& occasion)
{
    const auto* missing = occasion ? std::get_if<values::Missing>(&occasion->finding.value) : nullptr;
    return missing != nullptr && missing->why == values::Absence::NotAsked ? occasion->computedFrom.english()
                                                                           : QString();
}

std::vector<Finding> without(std::vector<Finding> findings, const QString& measure, Side side = Side::None)
{
    std::erase_if(findings,
                  [&](const Finding& finding) { return finding.measure == measure && finding.side == side; });
    return findings;
}

std::vector<Finding> with(std::vector<Finding> findings, const Finding& changed)
{
    findings = without(findings, changed.measure, changed.side);
    findings.push_back(changed);
    return findings;
}

class TestDerived : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void cadenceIsStepsAMinute();
    void stepLengthIsTheDistanceOverTheSteps();
    void aWalkTriedAndUnableHasNoCadenceEither();
    void sidesEnterASumWithTheirMean();
    void aSumNamesTheItemThatIsMissing();
    void anItemThatCouldNotBeTestedLeavesTheSumMissing();
    void whereNothingWasRecordedThereIsNoSum();
    void theBatteryAddsItsThreeParts();
    void theBatteryTakesTheTimeToTheFifthStanding();
    void threeMetresScoreAsFour();
    void anUnablePartOfTheBatteryScoresNothing();
    void aHoldThatWasNotReachedEndsTheHolds();
    void theBatteryNamesThePartThatIsMissing();
    void theCostIsTheShareTheTaskAdds();
    void withoutTheSingleWalkThereIsNoCost();
    void aSideIsNoPartOfACost();
    void conditionsAreThoseOfTheParts();
    void whatIsComputedFromOneTestTakesItsOwnConditions();
    void aQuickWalkOverAShortWayHasASpeed();
    void aTrialOfNothingHasNoSpeed();
    void aSumHasNoSide();
    void aPartTheCatalogueDoesNotKnowComputesNothing();
    void anEnteredTotalIsKept();
    void aTotalThatContradictsItsPartsIsRefused();
    void aTotalWithoutAllItsPartsIsNotDoubted();
};

void TestDerived::cadenceIsStepsAMinute()
{
    const auto rate = computed(u"rate"_s, visitWith({steps(18), walk(9)}));
    QCOMPARE(number(rate), 120.0); // 18 / 9 s · 60
    QCOMPARE(rate->computedFrom.english(), u"18 steps in 9.00 s"_s);
    QCOMPARE(missing(computed(u"rate"_s, visitWith({walk(9)}))), u"Steps is missing"_s);
}

void TestDerived::stepLengthIsTheDistanceOverTheSteps()
{
    const auto length = computed(u"step-length"_s, visitWith({steps(16)}, {{u"distance_m"_s, u"10"_s}}));
    QCOMPARE(number(length), 62.5); // 1000 cm / 16
    QCOMPARE(length->computedFrom.english(), u"10 m in 16 steps"_s);
}

void TestDerived::aWalkTriedAndUnableHasNoCadenceEither()
{
    const auto rate =
        computed(u"rate"_s, visitWith({finding(u"ten-metre-walk-time-comfortable"_s, unable(u"fatigue"_s))}));
    QVERIFY(rate && values::isUnable(rate->finding.value));
}

void TestDerived::sidesEnterASumWithTheirMean()
{
    const auto total = computed(u"total"_s, visitWith(allItems()));
    QCOMPARE(number(total), 4.5); // 2 + 1 + (2 + 1) / 2
    QCOMPARE(total->computedFrom.english(), u"Gait 2 + Stance 1 + Heel to shin (2 + 1)/2"_s);
}

void TestDerived::aSumNamesTheItemThatIsMissing()
{
    const auto items = without(allItems(), u"heel"_s, Side::Left);
    QCOMPARE(missing(computed(u"total"_s, visitWith(items))), u"Heel to shin, left, is missing"_s);
    QCOMPARE(missing(computed(u"total"_s, visitWith({points(u"stance"_s, 1)}))),
             u"Gait and 2 more are missing"_s);
}

void TestDerived::anItemThatCouldNotBeTestedLeavesTheSumMissing()
{
    const auto items = with(allItems(), finding(u"heel"_s, unable(), Side::Right));
    QCOMPARE(missing(computed(u"total"_s, visitWith(items))), u"Heel to shin, right, is missing"_s);
}

void TestDerived::whereNothingWasRecordedThereIsNoSum()
{
    QVERIFY(!computed(u"total"_s, visitWith({})));
    const auto refused = finding(u"gait"_s, values::Missing{values::Absence::Refused, {}});
    QVERIFY(!computed(u"total"_s, visitWith({refused})));
    QVERIFY(!computed(u"gait"_s, visitWith({})));
}

void TestDerived::theBatteryAddsItsThreeParts()
{
    const auto battery = computed(u"battery"_s, visitWith(allOfTheBattery(), {{u"distance_m"_s, u"4"_s}}));
    QCOMPARE(number(battery), 8.0); // tandem 4.5 s: 3; 4 m in 4.66 s: 4; 17.2 s: 1
    QCOMPARE(battery->computedFrom.english(), u"balance 3 + walk 4 + rises 1"_s);
}

void TestDerived::theBatteryTakesTheTimeToTheFifthStanding()
{
    const QString lacks = u"the time of the five rises to the fifth standing is missing"_s;
    auto rises = seconds(u"rises"_s, 17.2);
    QCOMPARE(missing(computed(u"battery"_s,
                              visitWith(with(allOfTheBattery(), rises), {{u"distance_m"_s, u"4"_s}}))),
             lacks);
    rises.exceptions = {{u"timing_end"_s, u"sitting"_s}};
    QCOMPARE(missing(computed(u"battery"_s,
                              visitWith(with(allOfTheBattery(), rises), {{u"distance_m"_s, u"4"_s}}))),
             lacks);
    rises.exceptions = {{u"timing_end"_s, u"standing"_s}};
    QCOMPARE(number(computed(u"battery"_s,
                             visitWith(with(allOfTheBattery(), rises), {{u"distance_m"_s, u"4"_s}}))),
             8.0);
}

void TestDerived::threeMetresScoreAsFour()
{
    const auto battery = computed(u"battery"_s, visitWith(allOfTheBattery(), {{u"distance_m"_s, u"3"_s}}));
    QCOMPARE(battery->computedFrom.english(),
             u"balance 3 + walk 2 + rises 1"_s); // 3 m: 4.66 to 6.52 s scores 2
    QCOMPARE(number(battery), 6.0);
}

void TestDerived::anUnablePartOfTheBatteryScoresNothing()
{
    auto findings = with(allOfTheBattery(), finding(u"course"_s, unable()));
    findings = with(findings, finding(u"rises"_s, unable()));
    findings = with(findings, finding(u"tandem"_s, unable()));
    const auto battery = computed(u"battery"_s, visitWith(findings));
    QCOMPARE(number(battery), 2.0);
    QCOMPARE(battery->computedFrom.english(), u"balance 2 + walk 0 + rises 0"_s);
}

void TestDerived::aHoldThatWasNotReachedEndsTheHolds()
{
    auto findings = without(without(allOfTheBattery(), u"tandem"_s), u"semi"_s);
    findings = with(findings, seconds(u"together"_s, 9.9));
    QCOMPARE(number(computed(u"battery"_s, visitWith(findings, {{u"distance_m"_s, u"4"_s}}))), 5.0);
    findings = with(findings, seconds(u"together"_s, 10));
    QCOMPARE(missing(computed(u"battery"_s, visitWith(findings, {{u"distance_m"_s, u"4"_s}}))),
             u"Semi-tandem is missing"_s);
}

void TestDerived::theBatteryNamesThePartThatIsMissing()
{
    QCOMPARE(missing(computed(u"battery"_s, visitWith(without(allOfTheBattery(), u"rises"_s),
                                                      {{u"distance_m"_s, u"4"_s}}))),
             u"Five rises is missing"_s);
    QCOMPARE(missing(computed(u"battery"_s, visitWith(allOfTheBattery()))),
             u"Speed over a short course is missing"_s); // no timed distance
}

void TestDerived::theCostIsTheShareTheTaskAdds()
{
    const auto cost = computed(u"cost"_s, visitWith({walk(10), seconds(u"dual"_s, 12.5)}));
    QCOMPARE(number(cost), 25.0); // 100 · (12.5 − 10) / 10
    QCOMPARE(cost->computedFrom.english(), u"10.00 s alone, 12.50 s with the task"_s);
    QCOMPARE(number(computed(u"cost"_s, visitWith({walk(10), seconds(u"dual"_s, 9)}))), -10.0);
}

void TestDerived::withoutTheSingleWalkThereIsNoCost()
{
    QCOMPARE(missing(computed(u"cost"_s, visitWith({seconds(u"dual"_s, 12.5)}))),
             u"10-metre walk time: comfortable pace is missing"_s);
}

void TestDerived::aSideIsNoPartOfACost()
{
    QCOMPARE(missing(computed(u"heel-cost"_s, visitWith(allItems()))), u"Heel to shin is missing"_s);
}

void TestDerived::conditionsAreThoseOfTheParts()
{
    Finding counted = steps(18);
    counted.exceptions = {{u"footwear"_s, u"barefoot"_s}, {u"aid"_s, QString()}};
    const auto rate = computed(u"rate"_s, visitWith({counted, walk(9)}, {{u"footwear"_s, u"shoes"_s},
                                                                         {u"aid"_s, u"stick"_s},
                                                                         {u"distance_m"_s, u"10"_s}}));
    QCOMPARE(records::recorded(rate->conditions, u"footwear"_s), u"barefoot / shoes"_s);
    QCOMPARE(records::recorded(rate->conditions, u"aid"_s), QString());
    QCOMPARE(records::recorded(rate->conditions, u"distance_m"_s), u"10"_s);
}

void TestDerived::whatIsComputedFromOneTestTakesItsOwnConditions()
{
    Finding course = seconds(u"course"_s, 5);
    course.exceptions = {{u"aid"_s, u"stick"_s}};
    const auto speed = computed(u"course-speed"_s, visitWith({course}, {{u"distance_m"_s, u"4"_s}}));
    QCOMPARE(number(speed), 0.8);
    QCOMPARE(speed->finding.exceptions, course.exceptions);
    QCOMPARE(records::recorded(speed->conditions, u"aid"_s), u"stick"_s);
}

void TestDerived::aQuickWalkOverAShortWayHasASpeed()
{
    const auto met = visitWith({seconds(u"course"_s, 0.8)}, {{u"distance_m"_s, u"1"_s}});
    QCOMPARE(number(computed(u"course-speed"_s, met)), 1.25);
}

/// As a file may hold it that another program wrote: the mean alone would look like a walk.
void TestDerived::aTrialOfNothingHasNoSpeed()
{
    Finding course = seconds(u"course"_s, 4);
    course.trials = {8, 0};
    const auto met = visitWith({course}, {{u"distance_m"_s, u"4"_s}});
    QCOMPARE(missing(computed(u"course-speed"_s, met)), u"Walk over a short course is missing"_s);
}

void TestDerived::aSumHasNoSide()
{
    QVERIFY(records::occasionAt(visitWith(allItems()), book(), u"total"_s, Side::None));
    QVERIFY(!records::occasionAt(visitWith(allItems()), book(), u"total"_s, Side::Right));
}

void TestDerived::aPartTheCatalogueDoesNotKnowComputesNothing()
{
    auto total = *book().measure(u"total"_s);
    total.computed->parts += u"long-gone"_s;
    QVERIFY(!records::derived(visitWith(allItems()), total, book()));
}

void TestDerived::anEnteredTotalIsKept()
{
    const auto total = computed(u"total"_s, visitWith(with(allItems(), points(u"total"_s, 4.5))));
    QCOMPARE(number(total), 4.5);
    QCOMPARE(total->computedFrom.english(), QString());
    const auto notAsked = finding(u"total"_s, values::Missing{});
    QCOMPARE(number(computed(u"total"_s, visitWith(with(allItems(), notAsked)))), 4.5);
}

void TestDerived::aTotalThatContradictsItsPartsIsRefused()
{
    const auto patient = examples::patient({});
    const auto visit = visitWith(with(allItems(), points(u"total"_s, 5)));
    const auto wrong = records::wrongWithTotal(visit, u"total"_s, book());
    QVERIFY(wrong);
    QCOMPARE(wrong->what.english(),
             u"Total: the parts recorded make 4.5, not 5.0; leave the total out, or mend a part."_s);
    const auto within = records::wrongWith(visit, patient, book(), day);
    QVERIFY(within);
    QCOMPARE(within->what.english(),
             u"Total: it is not what its parts make; leave the total out, or mend a part."_s);
    QVERIFY(!records::wrongWith(visitWith(with(allItems(), points(u"total"_s, 4.5))), patient, book(), day));
    const auto battery =
        visitWith(with(allOfTheBattery(), points(u"battery"_s, 12)), {{u"distance_m"_s, u"4"_s}});
    QVERIFY(records::wrongWithTotal(battery, u"battery"_s, book()));
}

void TestDerived::aTotalWithoutAllItsPartsIsNotDoubted()
{
    const auto items = without(allItems(), u"heel"_s, Side::Left);
    QVERIFY(!records::wrongWithTotal(visitWith(with(items, points(u"total"_s, 12))), u"total"_s, book()));
}

HOUSE_TEST(TestDerived)

} // namespace test_derived

#include "test_derived.moc"
