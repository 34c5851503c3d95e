#include "app/charts/trend_points.h"

#include "app/charts/axis.h"
#include "app/charts/trend_words.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_trend_points
{

using charts::TrendPoints;
using examples::finding;
using examples::visit;
using judging::Verdict;
using records::Side;
using values::Quantity;
using values::Unit;

const QString upAndGo = u"timed-up-and-go"_s;
const QString peg = u"nine-hole-peg"_s;
const QString berg = u"berg-balance"_s;
const QString walk = u"ten-metre-walk-time-comfortable"_s;
const QString speed = u"gait-speed-comfortable"_s;

records::Conditions with(const QString& aid)
{
    return {{u"aid"_s, aid}, {u"distance_m"_s, u"10"_s}};
}

records::Visit timed(const QString& id, QDate day, double seconds, const records::Conditions& conditions = {})
{
    return visit(
        id, day,
        {finding(upAndGo, Quantity{seconds, Unit::Second}), finding(walk, Quantity{seconds, Unit::Second})},
        conditions);
}

TrendPoints pointsOf(const QString& measure, const std::vector<records::Visit>& visits,
                     const QString& population = u"stroke"_s, std::optional<records::VisitId> reference = {},
                     std::optional<Side> side = {})
{
    records::Patient patient = examples::patient(population);
    patient.dominantHand = records::Hand::Right;
    return charts::trendPoints({measure, side, visits.back().id, reference}, visits, patient,
                               examples::catalogue(), {});
}

records::Happening happened(records::HappeningKind kind, QDate from, std::optional<QDate> until = {})
{
    records::Happening happening;
    happening.kind = kind;
    happening.from = from;
    happening.until = until;
    return happening;
}

class TestTrendPoints : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void whatHappenedStandsInItsLaneAsFarAsTheDaysReach()
    {
        using records::HappeningKind;
        const std::vector<records::Visit> visits{timed(u"a"_s, {2025, 1, 10}, 12),
                                                 timed(u"b"_s, {2025, 6, 10}, 12)};
        const charts::TrendQuestion question{
            upAndGo,
            {},
            {},
            {},
            {happened(HappeningKind::Surgery, {2020, 1, 1}),
             happened(HappeningKind::TherapyBlock, {2024, 12, 1}, QDate(2025, 1, 20)),
             happened(HappeningKind::Fall, {2025, 3, 1}), happened(HappeningKind::Fall, {2025, 7, 1})}};
        const auto points =
            charts::trendPoints(question, visits, examples::patient(u"stroke"_s), examples::catalogue(), {});
        QCOMPARE(points.happenings.size(), 2U);
        QCOMPARE(points.happenings[0].from, QDate(2025, 1, 10)); // where the axis begins
        QCOMPARE(points.happenings[0].until, QDate(2025, 1, 20));
        QCOMPARE(points.happenings[1].letter, u"b"_s);
        QCOMPARE(points.remarks.last(), u"Between visits: a: therapy block (01-Dec-2024 to 20-Jan-2025); "
                                        "b: fall (01-Mar-2025)."_s);
    }

    void aTargetIsPartOfTheAxisAndIsSaid()
    {
        const std::vector<records::Visit> visits{timed(u"a"_s, {2025, 1, 10}, 20)};
        records::Target target;
        target.measure = upAndGo;
        target.value = 8;
        records::Target other = target;
        other.measure = walk;
        const auto points = charts::trendPoints({upAndGo, {}, {}, {}, {}, {target, other}}, visits,
                                                examples::patient(u"stroke"_s), examples::catalogue(), {});
        QCOMPARE(points.targets.size(), 1U);
        QCOMPARE(points.targets[0].words, u"target 8.0 s"_s);
        QVERIFY(charts::valueAxis(points).share(8) >= 0);
        QVERIFY(points.remarks.contains(u"Dashed line across: the target agreed with the person."_s));
    }

    void valuesComeInOrderWithTheirWords();
    void aChangedConditionBeginsANewRun();
    void aConditionNotRecordedBreaksToo();
    void unableStandsInTheLaneAndIsNotJoinedAcross();
    void aRefusedTestIsJoinedAcross();
    void limitsStandAroundTheChosenReference();
    void withoutAChoiceTheFirstComparableVisitIsTheReference();
    void theConditionsOfThisVisitCount();
    void aReferenceWithoutAValueIsSaid();
    void percentLimitsDependOnTheReference();
    void aShareOfTheMeanIsSolvedForTheLaterValue();
    void limitsBeyondTheScaleAreSaidNotDrawn();
    void aPublishedStandardErrorComesBeforeAComputedOne();
    void withoutAFittingThresholdThereIsNeitherBandNorLimit();
    void aReferenceRangeIsThatOfTheNewestAge();
    void verdictsAreAgainstTheReference();
    void sidesAreApartAndCanBeAskedAlone();
    void gradesAndWordsStandOnSteps();
    void thisVisitAndThePreviousAreSaidWithTheirDates();
    void theLimitsAreThoseOfTheComparisonItself();
    void aFirstResultHasNoLimits();
    void whatIsNotComparableIsNotCalledPrevious();
    void aResultAtTheCapIsSaidToBe();
    void whatCouldNotShowIsSaid();
    void anUnknownMeasureIsEmpty();
};

void TestTrendPoints::valuesComeInOrderWithTheirWords()
{
    const auto points =
        pointsOf(upAndGo, {timed(u"a"_s, {2025, 1, 6}, 20), timed(u"b"_s, {2025, 6, 2}, 18.5)});
    QCOMPARE(points.lines.size(), 1U);
    const auto& entries = points.lines[0].entries;
    QCOMPARE(entries.size(), 2U);
    QCOMPARE(entries[1].words, u"18.5 s"_s);
    QCOMPARE(entries[1].number, 18.5);
    QVERIFY(entries[1].joins);
    QCOMPARE(points.from, QDate(2025, 1, 6));
    QCOMPARE(points.to, QDate(2025, 6, 2));
    QCOMPARE(points.unitWords, u"s"_s);
    QCOMPARE(points.direction, u"lower is better"_s);
}

void TestTrendPoints::aChangedConditionBeginsANewRun()
{
    const auto points = pointsOf(walk, {timed(u"a"_s, {2025, 1, 6}, 20, with(u"stick"_s)),
                                        timed(u"b"_s, {2025, 3, 6}, 19, with(u"stick"_s)),
                                        timed(u"c"_s, {2025, 6, 2}, 14, with(u"none"_s))});
    const auto& entries = points.lines[0].entries;
    QCOMPARE(entries[1].run, 0);
    QVERIFY(entries[1].joins);
    QCOMPARE(entries[2].run, 1);
    QVERIFY(!entries[2].joins);
    QCOMPARE(entries[2].changes, QStringList{u"Walking aid: stick → none"_s});
}

void TestTrendPoints::aConditionNotRecordedBreaksToo()
{
    const auto points = pointsOf(walk, {timed(u"a"_s, {2025, 1, 6}, 20, with(u"stick"_s)),
                                        timed(u"b"_s, {2025, 3, 6}, 19, {{u"distance_m"_s, u"10"_s}})});
    QVERIFY(!points.lines[0].entries[1].joins);
    QCOMPARE(points.lines[0].entries[1].changes, QStringList{u"Walking aid: stick → not recorded"_s});
}

void TestTrendPoints::unableStandsInTheLaneAndIsNotJoinedAcross()
{
    const auto points =
        pointsOf(upAndGo, {timed(u"a"_s, {2025, 1, 6}, 20),
                           visit(u"b"_s, {2025, 3, 6}, {finding(upAndGo, examples::unable(u"fell"_s))}),
                           timed(u"c"_s, {2025, 6, 2}, 18)});
    const auto& entries = points.lines[0].entries;
    QVERIFY(!entries[1].number);
    QCOMPARE(entries[1].absence, values::Absence::Unable);
    QCOMPARE(entries[1].words, u"unable: fell"_s);
    QCOMPARE(entries[1].verdict, Verdict::BecameUnable);
    QVERIFY(!entries[2].joins);
    QCOMPARE(entries[2].run, 0); // the conditions are the same
    QVERIFY(entries[2].changes.isEmpty());
}

void TestTrendPoints::aRefusedTestIsJoinedAcross()
{
    const values::Missing refused{values::Absence::Refused, {}};
    const auto points = pointsOf(upAndGo, {timed(u"a"_s, {2025, 1, 6}, 20),
                                           visit(u"b"_s, {2025, 3, 6}, {finding(upAndGo, refused)}),
                                           timed(u"c"_s, {2025, 6, 2}, 18)});
    QCOMPARE(points.lines[0].entries[1].absence, values::Absence::Refused);
    QVERIFY(!points.lines[0].entries[1].verdict);
    QVERIFY(points.lines[0].entries[2].joins);
}

void TestTrendPoints::limitsStandAroundTheChosenReference()
{
    // The example's row for stroke: 8 s at 95 %.
    const std::vector visits{timed(u"a"_s, {2025, 1, 6}, 40), timed(u"b"_s, {2025, 3, 6}, 30),
                             timed(u"c"_s, {2025, 6, 2}, 25)};
    const auto points = pointsOf(upAndGo, visits, u"stroke"_s, visits[1].id);
    const auto& line = points.lines[0];
    QVERIFY(line.limits);
    QCOMPARE(line.limits->reference, 30.0);
    QCOMPARE(line.limits->improved, 22.0);
    QCOMPARE(line.limits->declined, 38.0);
    QVERIFY(line.entries[1].isReference);
    QCOMPARE(points.referenceDay, QDate(2025, 3, 6));
    // SEM = MDC95 / (1.96 · √2), Weir 2005, J Strength Cond Res 19:231.
    QVERIFY(line.standardError);
    QVERIFY(qAbs(*line.standardError - 8 / (1.959964 * 1.414214)) < 1e-4);
}

void TestTrendPoints::withoutAChoiceTheFirstComparableVisitIsTheReference()
{
    const auto points = pointsOf(walk, {timed(u"a"_s, {2025, 1, 6}, 20, with(u"stick"_s)),
                                        timed(u"b"_s, {2025, 3, 6}, 14, with(u"none"_s)),
                                        timed(u"c"_s, {2025, 6, 2}, 13, with(u"none"_s))});
    QVERIFY(points.lines[0].entries[1].isReference);
    QCOMPARE(points.referenceDay, QDate(2025, 3, 6));
}

void TestTrendPoints::theConditionsOfThisVisitCount()
{
    const std::vector visits{timed(u"a"_s, {2025, 1, 6}, 20, with(u"stick"_s)),
                             timed(u"b"_s, {2025, 2, 6}, 19, with(u"stick"_s)),
                             timed(u"c"_s, {2025, 6, 2}, 13, with(u"none"_s))};
    const auto points = charts::trendPoints({walk, {}, visits[1].id, {}}, visits,
                                            examples::patient(u"stroke"_s), examples::catalogue(), {});
    QVERIFY(points.lines[0].entries[0].isReference);
    QCOMPARE(points.visitDay, QDate(2025, 2, 6));
    // Back with the stick: the first walk with one is the reference again.
    auto back = visits;
    back.push_back(timed(u"d"_s, {2025, 8, 2}, 18, with(u"stick"_s)));
    QVERIFY(pointsOf(walk, back).lines[0].entries[0].isReference);
    QCOMPARE(pointsOf(walk, back).lines[0].entries[2].verdict, Verdict::NotComparable);
}

void TestTrendPoints::aReferenceWithoutAValueIsSaid()
{
    const std::vector visits{visit(u"a"_s, {2025, 1, 6}, {finding(upAndGo, examples::unable())}),
                             timed(u"b"_s, {2025, 2, 6}, 19)};
    const auto points = pointsOf(upAndGo, visits, u"stroke"_s, visits[0].id);
    QVERIFY(!points.lines[0].limits);
    QVERIFY(points.remarks.join(u' ').contains(u"The reference visit holds no value"_s));
}

void TestTrendPoints::percentLimitsDependOnTheReference()
{
    // Review table, J Neurol 2022;269:1282, multiple sclerosis: 23 % for the better, 30 % for the worse.
    const auto points = pointsOf(upAndGo, {timed(u"a"_s, {2025, 1, 6}, 10), timed(u"b"_s, {2025, 3, 6}, 9)},
                                 u"multiple-sclerosis"_s);
    QVERIFY(points.lines[0].limits);
    QVERIFY(qAbs(*points.lines[0].limits->improved - 7.7) < 1e-9);
    QVERIFY(qAbs(*points.lines[0].limits->declined - 13.0) < 1e-9);
    QVERIFY(!points.lines[0].standardError); // a percentage gives none in the unit
}

void TestTrendPoints::aShareOfTheMeanIsSolvedForTheLaterValue()
{
    // |x − 10| = 0.2 · (x + 10) / 2 holds at 10 · 1.1 / 0.9 and 10 · 0.9 / 1.1.
    catalogue::Catalogue book = examples::catalogue();
    book.thresholds = {examples::threshold(u"share"_s, upAndGo, u"stroke"_s, 0.2, u"hosoi"_s, 20)};
    book.thresholds[0].scale = catalogue::Scale::ProportionalToMean;
    const std::vector visits{timed(u"a"_s, {2025, 1, 6}, 10), timed(u"b"_s, {2025, 3, 6}, 10.5)};
    const auto points =
        charts::trendPoints({upAndGo, {}, {}, {}}, visits, examples::patient(u"stroke"_s), book, {});
    QVERIFY(points.lines[0].limits);
    QVERIFY(qAbs(*points.lines[0].limits->declined - 11 / 0.9) < 1e-9);
    QVERIFY(qAbs(*points.lines[0].limits->improved - 9 / 1.1) < 1e-9);
}

void TestTrendPoints::limitsBeyondTheScaleAreSaidNotDrawn()
{
    // Donoghue & Stokes 2009: 4 points between 45 and 56; the scale ends at 56.
    const auto points = pointsOf(berg,
                                 {visit(u"a"_s, {2025, 1, 6}, {finding(berg, Quantity{54, Unit::Score})}),
                                  visit(u"b"_s, {2025, 3, 6}, {finding(berg, Quantity{55, Unit::Score})})},
                                 u"older-adults"_s);
    QVERIFY(points.lines[0].limits);
    QVERIFY(!points.lines[0].limits->improved);
    QCOMPARE(points.lines[0].limits->declined, 50.0);
    QVERIFY(points.remarks.contains(u"The scale ends before an improvement could show."_s));
}

void TestTrendPoints::aPublishedStandardErrorComesBeforeAComputedOne()
{
    catalogue::Catalogue book = examples::catalogue();
    for (catalogue::Threshold& row : book.thresholds)
        row.sem = 1.5;
    const std::vector visits{timed(u"a"_s, {2025, 1, 6}, 30), timed(u"b"_s, {2025, 3, 6}, 31)};
    const auto points =
        charts::trendPoints({upAndGo, {}, {}, {}}, visits, examples::patient(u"stroke"_s), book, {});
    QCOMPARE(points.lines[0].standardError, 1.5);
}

void TestTrendPoints::withoutAFittingThresholdThereIsNeitherBandNorLimit()
{
    const auto points = pointsOf(upAndGo, {timed(u"a"_s, {2025, 1, 6}, 10), timed(u"b"_s, {2025, 3, 6}, 9)},
                                 u"cerebellar-ataxia"_s);
    QVERIFY(!points.lines[0].limits);
    QVERIFY(!points.lines[0].standardError);
    QVERIFY(points.remarks.isEmpty());
}

void TestTrendPoints::aReferenceRangeIsThatOfTheNewestAge()
{
    catalogue::Catalogue book = examples::catalogue();
    for (const auto& [low, mean] : {std::pair(60, 8.0), std::pair(70, 9.0)}) {
        catalogue::Norm norm;
        norm.id = QString::number(low);
        norm.measure = upAndGo;
        norm.whom.populationWords = u"healthy adults"_s;
        norm.whom.ageLow = low;
        norm.whom.ageHigh = low + 9;
        norm.mean = mean;
        norm.sd = 4;
        norm.origin = {30, u"steffen"_s, catalogue::Checked::Memory, {}};
        book.norms.push_back(norm);
    }
    records::Patient patient = examples::patient(u"stroke"_s);
    patient.born = QDate(1956, 1, 1);
    const std::vector visits{timed(u"a"_s, {2025, 12, 31}, 20), timed(u"b"_s, {2026, 1, 1}, 18.5)};
    const auto points = charts::trendPoints({upAndGo, {}, visits.back().id, {}}, visits, patient, book, {});
    QVERIFY(points.range);
    QCOMPARE(points.range->low, 2.0); // the scale begins there
    QCOMPARE(points.range->high, 17.0);
    QCOMPARE(
        points.remarks.last(),
        u"Reference range, lightly shaded: 2.0 s to 17.0 s, mean ± 2 SD of adults of 70 to 79 (Steffen & "
        "Seney 2008, healthy adults, n 30, from memory)."_s);
    patient.born.reset();
    QVERIFY(!charts::trendPoints({upAndGo, {}, visits.back().id, {}}, visits, patient, book, {}).range);
}

void TestTrendPoints::verdictsAreAgainstTheReference()
{
    const auto points = pointsOf(upAndGo, {timed(u"a"_s, {2025, 1, 6}, 30), timed(u"b"_s, {2025, 3, 6}, 22),
                                           timed(u"c"_s, {2025, 6, 2}, 21.9)});
    const auto& entries = points.lines[0].entries;
    QVERIFY(!entries[0].verdict);
    QCOMPARE(entries[1].verdict, Verdict::WithinError); // equal to the limit of 8 s
    QCOMPARE(entries[2].verdict, Verdict::Better);
}

void TestTrendPoints::sidesAreApartAndCanBeAskedAlone()
{
    const auto both = [](const QString& id, QDate day, double right, double left) {
        return visit(id, day,
                     {finding(peg, Quantity{right, Unit::Second}, Side::Right),
                      finding(peg, Quantity{left, Unit::Second}, Side::Left)});
    };
    const std::vector visits{both(u"a"_s, {2025, 1, 6}, 20, 30), both(u"b"_s, {2025, 3, 6}, 21, 31)};
    const auto points = pointsOf(peg, visits, u"multiple-sclerosis"_s);
    QCOMPARE(points.lines.size(), 2U);
    QCOMPARE(points.lines[0].name, u"right"_s);
    QCOMPARE(points.lines[1].entries[1].number, 31.0);
    const auto left = pointsOf(peg, visits, u"multiple-sclerosis"_s, {}, Side::Left);
    QCOMPARE(left.lines.size(), 1U);
    QCOMPARE(left.lines[0].side, Side::Left);
}

void TestTrendPoints::gradesAndWordsStandOnSteps()
{
    const std::vector visits{
        visit(u"a"_s, {2025, 1, 6},
              {finding(u"finger-nose"_s, values::Grade{3}, Side::Right),
               finding(u"pronator-drift"_s, values::Choice{u"pronation"_s}, Side::Left)})};
    const auto grades = pointsOf(u"finger-nose"_s, visits);
    QVERIFY(grades.isOrdinal);
    QCOMPARE(grades.steps.size(), 5U);
    QCOMPARE(grades.lines[0].entries[0].number, 3.0);
    const auto words = pointsOf(u"pronator-drift"_s, visits);
    QVERIFY(words.isOrdinal);
    QCOMPARE(words.steps[1].words, u"pronation and sinking"_s);
    QCOMPARE(words.lines[0].entries[0].number, 1.0);
    QVERIFY(!words.lines[0].limits);
}

void TestTrendPoints::thisVisitAndThePreviousAreSaidWithTheirDates()
{
    const auto points = pointsOf(upAndGo, {timed(u"a"_s, {2025, 1, 6}, 30), timed(u"b"_s, {2025, 3, 6}, 20)});
    QCOMPARE(
        charts::nowWords(points.lines[0], {}),
        u"20.0 s on 06-Mar-2025; previous 30.0 s on 06-Jan-2025; against 06-Jan-2025: better beyond error"_s);
    QVERIFY(charts::spoken(points, {}).contains(u"± 1.96 × standard error"_s));
}

/// The row whose interval lies nearest to the visits' gap, narrowed by the trials of both: as in the tables.
void TestTrendPoints::theLimitsAreThoseOfTheComparisonItself()
{
    catalogue::Catalogue book = examples::catalogue();
    book.thresholds = {examples::threshold(u"minutes"_s, walk, u"stroke"_s, 2, u"hosoi"_s, 20),
                       examples::threshold(u"months"_s, walk, u"stroke"_s, 8, u"hosoi"_s, 20)};
    book.thresholds[0].daysLow = book.thresholds[0].daysHigh = 1;
    book.thresholds[1].daysLow = book.thresholds[1].daysHigh = 60;
    book.thresholds[1].rule = catalogue::TrialRule::Single;
    std::vector visits{timed(u"a"_s, {2025, 1, 6}, 30, with(u"stick"_s)),
                       timed(u"b"_s, {2025, 3, 6}, 29, with(u"stick"_s))};
    for (records::Visit& visit : visits)
        visit.findings[1].trials = {*values::number(visit.findings[1].value),
                                    *values::number(visit.findings[1].value)};
    const records::Patient patient = examples::patient(u"stroke"_s);
    for (const std::optional<records::VisitId>& reference :
         {std::optional<records::VisitId>(), std::optional(visits[0].id)}) {
        const auto points =
            charts::trendPoints({walk, {}, visits[1].id, reference}, visits, patient, book, {});
        const auto& limits = points.lines[0].limits;
        QVERIFY(limits);
        const double limit = 8 / std::sqrt(2); // two trials at both visits
        QVERIFY(qAbs(*limits->improved - (30 - limit)) < 1e-9);
        QVERIFY(qAbs(*limits->declined - (30 + limit)) < 1e-9);
    }
}

void TestTrendPoints::aFirstResultHasNoLimits()
{
    const auto points = pointsOf(upAndGo, {timed(u"a"_s, {2025, 1, 6}, 30)});
    QVERIFY(!points.lines[0].limits);
    QVERIFY(!points.lines[0].standardError);
    QCOMPARE(charts::nowWords(points.lines[0], {}), u"30.0 s on 06-Jan-2025"_s);
}

void TestTrendPoints::whatIsNotComparableIsNotCalledPrevious()
{
    std::vector visits{timed(u"a"_s, {2025, 1, 6}, 20, with(u"none"_s)),
                       timed(u"b"_s, {2025, 3, 6}, 25, with(u"stick"_s)),
                       timed(u"c"_s, {2025, 6, 2}, 21, with(u"none"_s))};
    const QString back = charts::nowWords(pointsOf(walk, visits).lines[0], {});
    QVERIFY2(back.startsWith(u"21.00 s on 02-Jun-2025; previous 20.00 s on 06-Jan-2025"_s), qPrintable(back));
    visits.push_back(timed(u"d"_s, {2025, 8, 4}, 30, with(u"walker"_s)));
    const QString alone = charts::nowWords(pointsOf(walk, visits).lines[0], {});
    QVERIFY2(alone.startsWith(u"30.00 s on 04-Aug-2025; none before is comparable"_s), qPrintable(alone));
    QVERIFY2(!alone.contains(u"previous"_s), qPrintable(alone));
    // The heading tells of this visit, not of the newest.
    const auto second = charts::trendPoints({walk, {}, visits[2].id, {}}, visits,
                                            examples::patient(u"stroke"_s), examples::catalogue(), {});
    QVERIFY(charts::nowWords(second.lines[0], {}).startsWith(u"21.00 s on 02-Jun-2025"_s));
}

void TestTrendPoints::aResultAtTheCapIsSaidToBe()
{
    const QString hold = u"romberg-eyes-closed"_s;
    std::vector visits{visit(u"a"_s, {2025, 1, 6}, {finding(hold, Quantity{40, Unit::Second})}),
                       visit(u"b"_s, {2025, 3, 6}, {finding(hold, Quantity{60, Unit::Second})})};
    visits[1].findings[0].capReached = true;
    const auto points = pointsOf(hold, visits, u"parkinson"_s);
    QVERIFY(!points.lines[0].entries[0].isAtCap);
    QVERIFY(points.lines[0].entries[1].isAtCap);
    QCOMPARE(points.lines[0].entries[1].words, u"60.0 s, stopped at the cap"_s);
    QVERIFY(points.remarks.join(u' ').contains(u"stopped at the cap, so at least that value"_s));
}

void TestTrendPoints::whatCouldNotShowIsSaid()
{
    // Donoghue & Stokes 2009: 4 points between 45 and 56; the scale ends at 56.
    const auto points = pointsOf(berg,
                                 {visit(u"a"_s, {2025, 1, 6}, {finding(berg, Quantity{54, Unit::Score})}),
                                  visit(u"b"_s, {2025, 3, 6}, {finding(berg, Quantity{55, Unit::Score})})},
                                 u"older-adults"_s);
    QVERIFY(charts::nowWords(points.lines[0], {}).contains(u"within error; better could not show here"_s));
    QCOMPARE(points.lines[0].entries[1].verdict, Verdict::WithinError);
    QCOMPARE(points.lines[0].heading,
             (QStringList{u"55 points on 06-Mar-2025; previous 54 points on 06-Jan-2025"_s,
                          u"against 06-Jan-2025: within error; better could not show here"_s}));
}

void TestTrendPoints::anUnknownMeasureIsEmpty()
{
    QVERIFY(pointsOf(u"no-such-test"_s, {timed(u"a"_s, {2025, 1, 6}, 30)}).isEmpty());
    QVERIFY(pointsOf(berg, {timed(u"a"_s, {2025, 1, 6}, 30)}).isEmpty());
    QVERIFY(charts::trendPoints({upAndGo, {}, {}, {}}, {}, {}, examples::catalogue(), {}).isEmpty());
}

HOUSE_TEST(TestTrendPoints)

} // namespace test_trend_points

#include "test_trend_points.moc"
