#include "core/judging/standing.h"

#include "core/telling/standing_wording.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_standing
{

using namespace judging;
using catalogue::Band;
using catalogue::BandKind;
using catalogue::Norm;
using catalogue::NormSex;
using records::Hand;
using records::Sex;
using records::Side;

const QDate today(2026, 6, 12);

Norm norm(const QString& id, const QString& measure, NormSex sex, int low, int high, double mean,
          std::optional<double> sd)
{
    Norm row;
    row.id = id;
    row.measure = measure;
    row.whom = {{}, u"healthy adults"_s, sex, low, high, {}, {}, {}};
    row.mean = mean;
    row.sd = sd;
    row.origin = {40, u"steffen"_s, catalogue::Checked::Read, {}};
    return row;
}

Band cutOff(const QString& measure, const QString& population, std::optional<double> low,
            std::optional<double> high)
{
    Band row;
    row.id = u"cut"_s;
    row.measure = measure;
    row.series = u"cut"_s;
    row.kind = BandKind::Risk;
    row.whom.population = population;
    row.whom.populationWords = u"older adults"_s;
    row.low = low;
    row.high = high;
    row.words = u"people who fell"_s;
    row.sensitivity = 0.81;
    row.specificity = 0.7;
    row.origin = {100, u"hosoi"_s, catalogue::Checked::Read, {}};
    return row;
}

records::Patient woman(int age, const QString& population = {})
{
    records::Patient patient = examples::patient(population);
    patient.born = today.addYears(-age);
    patient.sex = Sex::Female;
    return patient;
}

records::Occasion occasion(const QString& measure, double number, Side side = Side::None)
{
    const catalogue::Catalogue book = examples::catalogue();
    records::Occasion made;
    made.day = today;
    made.finding = examples::finding(measure, values::Quantity{number, book.measure(measure)->unit}, side);
    return made;
}

catalogue::Catalogue withNorms(std::vector<Norm> norms, std::vector<Band> bands = {})
{
    catalogue::Catalogue book = examples::catalogue();
    book.norms = std::move(norms);
    book.bands = std::move(bands);
    return book;
}

QString line(const catalogue::Catalogue& book, const records::Occasion& asked,
             const records::Patient& patient)
{
    return telling::standingInOneLine(standings(asked, patient, book), *book.measure(asked.finding.measure),
                                      book, {});
}

std::vector<Obstacle> obstacles(const std::vector<Standing>& found)
{
    const auto* none = found.size() == 1 ? std::get_if<NoReference>(&found.front().answer) : nullptr;
    return none == nullptr ? std::vector<Obstacle>() : none->obstacles;
}

const QString up = u"timed-up-and-go"_s;
const QString speed = u"gait-speed-comfortable"_s;
const QString hold = u"romberg-eyes-closed"_s;
const QString peg = u"nine-hole-peg"_s;

class StandingTest : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void deviationsAndPercentileFollowTheBetterDirection();
    void bothEndsOfAnAgeBandBelongToIt();
    void anAgeBetweenTwoBandsHasNoReference();
    void whatIsMissingIsSaid();
    void theOtherSexIsPassedOverInSilence();
    void valuesOfAPopulationHoldForNobodyElse();
    void handsFollowTheSideOrTheDominantHand();
    void anotherConditionDoesNotCompare();
    void aBestIsNotHeldAgainstAMean();
    void aStoppedTrialTellsOnlyWhatIsCertain();
    void aCutOffPromisesNothingOnEitherSide();
    void aLevelIsShownWhereTheResultLies();
    void theMeansIntervalIsNoRange();
    void aRangeIncludesItsEnds();
    void severalSourcesAnswerEachForItself();
    void theMostSeriousLeadsAndNothingTakesItBack();
    void ofSeriousStatementsEachKindLeads();
    void aSingleTrialStandsForTheMeanAndNotForTheBest();
    void aPredictionNeedsOnlyWhatItIsMadeOf();
    void rowsOfOneTableThatAllFailAreSaidOnce();
    void anAgeIsNeededWhereOneEndIsSet();
    void gradesWordsAndMissingValuesStandNowhere();
    void aReadValueComesBeforeOneFromMemory();
};

void StandingTest::deviationsAndPercentileFollowTheBetterDirection()
{
    const auto book = withNorms({norm(u"t"_s, up, NormSex::Female, 70, 79, 9, 2),
                                 norm(u"v"_s, speed, NormSex::Female, 70, 79, 1.3, 0.2)});
    const auto slow = standings(occasion(up, 11), woman(75), book);
    QCOMPARE(slow.size(), size_t(1));
    const auto& time = std::get<AgainstNorm>(slow.front().answer);
    QCOMPARE(time.z, 1.0);
    QVERIFY(qAbs(*time.percentile - 15.8655) < 0.001); // Φ(−1), any table of the normal distribution
    QCOMPARE(line(book, occasion(up, 11), woman(75)),
             u"1.0 SD slower than the mean of 9.0 s (SD 2.0 s), percentile 16, higher is better, for women "
             "of 70 to 79 (Steffen & Seney 2008, healthy adults, n 40)"_s);
    QVERIFY(line(book, occasion(speed, 1.5), woman(75)).startsWith(u"1.0 SD faster"_s));
    QVERIFY(line(book, occasion(speed, 1.5), woman(75)).contains(u"percentile 84"_s));
    QVERIFY(line(book, occasion(up, 9), woman(75)).startsWith(u"at the mean of 9.0 s"_s));
    QVERIFY(line(book, occasion(up, 30), woman(75)).contains(u"percentile below 1"_s));
}

void StandingTest::bothEndsOfAnAgeBandBelongToIt()
{
    const auto book = withNorms({norm(u"t"_s, up, NormSex::Any, 70, 79, 9, 2)});
    for (const auto& [age, answers] :
         {std::pair(69, false), std::pair(70, true), std::pair(79, true), std::pair(80, false)})
        QCOMPARE(
            std::holds_alternative<AgainstNorm>(standings(occasion(up, 11), woman(age), book).front().answer),
            answers);
    records::Patient eve = woman(70);
    eve.born = eve.born->addDays(1);
    QCOMPARE(obstacles(standings(occasion(up, 11), eve, book)), std::vector{Obstacle::AgeOutside});
}

void StandingTest::anAgeBetweenTwoBandsHasNoReference()
{
    const auto book = withNorms(
        {norm(u"a"_s, up, NormSex::Any, 20, 40, 9, 2), norm(u"b"_s, up, NormSex::Any, 70, 79, 9, 2)});
    const auto found = standings(occasion(up, 11), woman(55), book);
    QCOMPARE(obstacles(found), std::vector{Obstacle::AgeOutside});
    QCOMPARE(
        line(book, occasion(up, 11), woman(55)),
        u"no reference values for this age, for adults of 20 to 79, with a gap at this age (Steffen & Seney "
        "2008, healthy adults, n 40)"_s);
    QVERIFY(line(book, occasion(up, 11), woman(85))
                .startsWith(u"no reference values for this age, for adults of 20 to 79 ("_s));
}

void StandingTest::whatIsMissingIsSaid()
{
    auto book = withNorms(
        {norm(u"f"_s, up, NormSex::Female, 70, 79, 9, 2), norm(u"m"_s, up, NormSex::Male, 70, 79, 9, 2)});
    records::Patient unknown = woman(75);
    unknown.sex = Sex::Other;
    QCOMPARE(obstacles(standings(occasion(up, 11), unknown, book)), std::vector{Obstacle::SexUnknown});
    unknown.born.reset();
    const std::vector both{Obstacle::AgeUnknown, Obstacle::SexUnknown};
    QCOMPARE(obstacles(standings(occasion(up, 11), unknown, book)), both);
    QVERIFY(line(book, occasion(up, 11), unknown).contains(u"date of birth is not recorded"_s));

    catalogue::Equation equation;
    equation.id = u"e"_s;
    equation.measure = u"six-minute-walk"_s;
    equation.intercept = 500;
    equation.perCm = 1;
    equation.perKg = -1;
    equation.origin = {50, u"fulk"_s, catalogue::Checked::Read, {}};
    book.equations = {equation};
    const std::vector sizes{Obstacle::HeightUnknown, Obstacle::WeightUnknown};
    QCOMPARE(obstacles(standings(occasion(u"six-minute-walk"_s, 400), woman(75), book)), sizes);
}

void StandingTest::theOtherSexIsPassedOverInSilence()
{
    const auto book = withNorms({norm(u"m"_s, up, NormSex::Male, 70, 79, 9, 2)});
    QVERIFY(standings(occasion(up, 11), woman(75), book).empty());
}

void StandingTest::valuesOfAPopulationHoldForNobodyElse()
{
    const auto book = withNorms({}, {cutOff(up, u"stroke"_s, 13.5, {})});
    QCOMPARE(standings(occasion(up, 14), woman(75, u"stroke-chronic"_s), book).size(), size_t(1));
    QVERIFY(standings(occasion(up, 14), woman(75, u"parkinson"_s), book).empty());
    QVERIFY(standings(occasion(up, 14), woman(75, u"mixed-neurological"_s), book).empty());
    QVERIFY(standings(occasion(up, 14), woman(75), book).empty());
}

void StandingTest::handsFollowTheSideOrTheDominantHand()
{
    Norm right = norm(u"r"_s, peg, NormSex::Any, 20, 94, 19, 3);
    right.whom.side = u"right"_s;
    Norm dominant = norm(u"d"_s, peg, NormSex::Any, 20, 94, 31, 15);
    dominant.whom.side = u"dominant"_s;
    dominant.origin.source = u"hosoi"_s;
    const auto book = withNorms({right, dominant});
    records::Patient patient = woman(60);
    QCOMPARE(standings(occasion(peg, 20, Side::Right), patient, book).size(), size_t(2));
    QCOMPARE(obstacles(standings(occasion(peg, 20, Side::Left), patient, book)),
             std::vector{Obstacle::HandUnknown});
    patient.dominantHand = Hand::Left;
    const auto left = standings(occasion(peg, 20, Side::Left), patient, book);
    QCOMPARE(left.size(), size_t(1));
    QCOMPARE(std::get<AgainstNorm>(left.front().answer).norm.id, u"d"_s);
    QVERIFY(standings(occasion(peg, 20, Side::Right), patient, withNorms({dominant})).empty());
    patient.dominantHand = Hand::Right;
    QCOMPARE(standings(occasion(peg, 20, Side::Right), patient, withNorms({dominant})).size(), size_t(1));
    QVERIFY(standings(occasion(peg, 20, Side::Left), patient, withNorms({dominant})).empty());
    right.whom.side = u"left"_s;
    QCOMPARE(standings(occasion(peg, 20, Side::Left), patient, withNorms({right})).size(), size_t(1));
    QVERIFY(standings(occasion(peg, 20, Side::Right), patient, withNorms({right})).empty());
    dominant.whom.population = u"stroke"_s;
    QVERIFY(standings(occasion(peg, 20, Side::Right), patient, withNorms({dominant})).empty());
}

void StandingTest::anotherConditionDoesNotCompare()
{
    Norm moving = norm(u"v"_s, speed, NormSex::Any, 20, 94, 1.3, 0.2);
    moving.whom.condition = {u"start"_s, {u"moving"_s}};
    const auto book = withNorms({moving});
    records::Occasion asked = occasion(speed, 1.1);
    QVERIFY(std::holds_alternative<AgainstNorm>(standings(asked, woman(60), book).front().answer));
    asked.conditions[u"start"_s] = u"Moving"_s;
    QVERIFY(std::holds_alternative<AgainstNorm>(standings(asked, woman(60), book).front().answer));
    asked.conditions[u"start"_s] = u"static"_s;
    QCOMPARE(obstacles(standings(asked, woman(60), book)), std::vector{Obstacle::OtherCondition});
}

void StandingTest::aBestIsNotHeldAgainstAMean()
{
    Norm mean = norm(u"m"_s, hold, NormSex::Any, 20, 94, 20, 5);
    mean.rule = catalogue::TrialRule::Mean;
    Norm best = norm(u"b"_s, hold, NormSex::Any, 20, 94, 25, 5);
    best.rule = catalogue::TrialRule::Best;
    const auto both = standings(occasion(hold, 22), woman(60), withNorms({mean, best}));
    QCOMPARE(both.size(), size_t(1)); // the measure takes the best
    QCOMPARE(std::get<AgainstNorm>(both.front().answer).norm.id, u"b"_s);
    QCOMPARE(obstacles(standings(occasion(hold, 22), woman(60), withNorms({mean}))),
             std::vector{Obstacle::OtherRule});
}

void StandingTest::aStoppedTrialTellsOnlyWhatIsCertain()
{
    records::Occasion stopped = occasion(hold, 30);
    stopped.finding.capReached = true;
    QCOMPARE(obstacles(standings(stopped, woman(60),
                                 withNorms({norm(u"n"_s, hold, NormSex::Any, 20, 94, 40, {})}))),
             std::vector{Obstacle::StoppedEarly});
    const auto longer =
        standings(stopped, woman(60), withNorms({norm(u"n"_s, hold, NormSex::Any, 20, 94, 25, {})}));
    QVERIFY(std::holds_alternative<AgainstNorm>(longer.front().answer));
    QVERIFY(longer.front().isAtLeast);
    const auto under = [&](double end) {
        return standings(stopped, woman(60, u"stroke"_s),
                         withNorms({}, {cutOff(hold, u"stroke"_s, {}, end)}));
    };
    QCOMPARE(obstacles(under(45)), std::vector{Obstacle::StoppedEarly});
    QVERIFY(!std::get<AgainstBand>(under(10).front().answer).isWithin);
}

void StandingTest::aCutOffPromisesNothingOnEitherSide()
{
    const auto book = withNorms({}, {cutOff(up, u"stroke"_s, 13.5, {})});
    const QString beyond = line(book, occasion(up, 13.5), woman(75, u"stroke"_s));
    QCOMPARE(beyond,
             u"beyond the cut-off for people who fell, 13.5 s and more (Hosoi 2023, older adults, n 100); "
             "this does not predict a fall or an illness; in the source, 81 of 100 people who fell were "
             "beyond it; 70 of 100 others were not"_s);
    const QString before = line(book, occasion(up, 13.4), woman(75, u"stroke"_s));
    QVERIFY(before.startsWith(u"not beyond the cut-off"_s));
    QVERIFY(before.contains(u"does not rule anything out"_s));
}

void StandingTest::aLevelIsShownWhereTheResultLies()
{
    Band slow = cutOff(speed, {}, {}, 0.4);
    slow.kind = BandKind::Level;
    slow.words = u"household walking"_s;
    Band middle = slow;
    middle.low = 0.4;
    middle.high = 0.8;
    middle.words = u"limited community walking"_s;
    const auto book = withNorms({}, {slow, middle});
    QVERIFY(
        line(book, occasion(speed, 0.39), woman(75)).startsWith(u"household walking: under 0.40 m/s ("_s));
    QVERIFY(line(book, occasion(speed, 0.4), woman(75))
                .startsWith(u"limited community walking: 0.40 m/s to under 0.80 m/s ("_s));
    QVERIFY(standings(occasion(speed, 0.8), woman(75), book).empty());
}

void StandingTest::theMeansIntervalIsNoRange()
{
    Norm row = norm(u"t"_s, up, NormSex::Any, 70, 79, 9.2, {});
    row.meanLow = 8.2;
    row.meanHigh = 10.2;
    const auto book = withNorms({row});
    const auto found = standings(occasion(up, 11), woman(75), book);
    QVERIFY(!std::get<AgainstNorm>(found.front().answer).z);
    QVERIFY(line(book, occasion(up, 11), woman(75))
                .contains(u"beyond the interval of the mean, 8.2 s to 10.2 s: worse than average, which is "
                          "not abnormal"_s));
    QVERIFY(line(book, occasion(up, 10.2), woman(75)).contains(u"no range of people"_s));
    QVERIFY(line(book, occasion(up, 5), woman(75)).contains(u"no range of people"_s));
}

void StandingTest::aRangeIncludesItsEnds()
{
    Norm row = norm(u"b"_s, u"berg-balance"_s, NormSex::Any, 20, 94, 0, {});
    row.mean.reset();
    row.rangeLow = 45;
    row.rangeHigh = 50;
    row.rangeWords = u"25th to 75th percentile"_s;
    const auto book = withNorms({row});
    const auto says = [&](double number) {
        return line(book, occasion(u"berg-balance"_s, number), woman(75)).section(u' ', 0, 0);
    };
    QCOMPARE(says(44), u"below"_s);
    QCOMPARE(says(45), u"within"_s);
    QCOMPARE(says(50), u"within"_s);
    QCOMPARE(says(51), u"above"_s);
}

void StandingTest::severalSourcesAnswerEachForItself()
{
    Norm other = norm(u"o"_s, up, NormSex::Any, 20, 60, 8, 1);
    other.origin.source = u"hosoi"_s;
    const auto book = withNorms({norm(u"t"_s, up, NormSex::Any, 70, 79, 9, 2), other});
    const auto found = standings(occasion(up, 11), woman(75), book);
    const QStringList lines = telling::standingLines(found, *book.measure(up), book, {});
    QCOMPARE(lines.size(), 2);
    QVERIFY(lines.at(0).contains(u"SD slower"_s));
    QVERIFY(
        lines.at(1).startsWith(u"no reference values for this age, for adults of 20 to 60 (Hosoi 2023"_s));
}

void StandingTest::theMostSeriousLeadsAndNothingTakesItBack()
{
    // Invented rows: 14.2 s lies 3.1 SD slower in one source, from memory, beyond the mean's interval of
    // another, read, and beyond a cut-off.
    Norm people = norm(u"t"_s, up, NormSex::Any, 70, 79, 8, 2);
    people.origin.checked = catalogue::Checked::Memory;
    people.origin.source = u"steffen"_s;
    Norm mean = norm(u"m"_s, up, NormSex::Any, 70, 79, 9.2, {});
    mean.origin.source = u"hosoi"_s;
    mean.meanLow = 8.2;
    mean.meanHigh = 10.2;
    const auto book = withNorms({mean, people}, {cutOff(up, {}, 12, {})});
    const auto asked = occasion(up, 14.2);
    const auto found = standings(asked, woman(75), book);
    const QStringList lines = telling::standingLines(found, *book.measure(up), book, {});
    QCOMPARE(lines.size(), 3);
    QVERIFY2(lines[0].startsWith(u"beyond the cut-off"_s), qPrintable(lines[0]));
    QVERIFY2(lines[1].startsWith(u"3.1 SD slower"_s), qPrintable(lines[1]));
    QVERIFY2(lines[2].contains(u"worse than average"_s), qPrintable(lines[2]));
    QVERIFY2(!lines.join(u' ').contains(u"not abnormal"_s), qPrintable(lines.join(u'\n')));
    QVERIFY2(lines[0].startsWith(line(book, asked, woman(75))), qPrintable(line(book, asked, woman(75))));
    // Alone the mean may say so.
    QVERIFY(telling::standingLines(standings(occasion(up, 11), woman(75), withNorms({mean})),
                                   *book.measure(up), book, {})
                .front()
                .contains(u"which is not abnormal"_s));
    // A row of both says it neither.
    people.meanLow = 7;
    people.meanHigh = 9;
    const QString both = line(withNorms({people}), asked, woman(75));
    QVERIFY2(both.startsWith(u"3.1 SD slower"_s) && !both.contains(u"not abnormal"_s), qPrintable(both));
}

void StandingTest::ofSeriousStatementsEachKindLeads()
{
    Norm ordinary = norm(u"a"_s, speed, NormSex::Any, 20, 94, 1.0, 0.2);
    const auto leads = [&](const Norm& other, double number) {
        return line(withNorms({ordinary, other}), occasion(speed, number), woman(75));
    };
    Norm far = norm(u"b"_s, speed, NormSex::Any, 20, 94, 1.4, 0.2);
    far.origin.source = u"hosoi"_s;
    QVERIFY(leads(far, 1.0).contains(u"2.0 SD slower"_s)); // two standard deviations count
    QVERIFY(leads(far, 1.1).contains(u"0.5 SD faster"_s)); // 1.5 do not, and nothing else leads
    QVERIFY(leads(far, 1.9).contains(u"4.5 SD faster"_s)); // better is not serious: as they come
    Norm range = far;
    range.mean.reset();
    range.sd.reset();
    range.rangeLow = 1.1;
    range.rangeHigh = 1.6;
    range.rangeWords = u"all of them"_s;
    QVERIFY(leads(range, 1.0).startsWith(u"below the range"_s));
    QVERIFY(leads(range, 1.1).contains(u"SD faster"_s));
    QVERIFY(leads(range, 1.3).contains(u"SD faster"_s));
}

void StandingTest::aSingleTrialStandsForTheMeanAndNotForTheBest()
{
    Norm row = norm(u"t"_s, up, NormSex::Any, 70, 79, 9, 2);
    row.rule = catalogue::TrialRule::Mean;
    QVERIFY(obstacles(standings(occasion(up, 11), woman(75), withNorms({row}))).empty());
    row.rule = catalogue::TrialRule::Best;
    QCOMPARE(obstacles(standings(occasion(up, 11), woman(75), withNorms({row}))),
             std::vector{Obstacle::OtherRule});
}

void StandingTest::aPredictionNeedsOnlyWhatItIsMadeOf()
{
    const QString walk = u"six-minute-walk"_s;
    catalogue::Equation equation;
    equation.id = u"e"_s;
    equation.measure = walk;
    equation.intercept = 500;
    equation.origin = {50, u"fulk"_s, catalogue::Checked::Read, {}};
    auto book = withNorms({});
    const auto held = [&](const records::Patient& patient) {
        book.equations = {equation};
        return standings(occasion(walk, 350), patient, book);
    };
    records::Patient unborn = woman(75);
    unborn.born.reset();
    QCOMPARE(std::get<AgainstPrediction>(held(unborn).front().answer).predicted, 500.0);
    equation.perYear = -2;
    equation.lowerLimitBelow = 50;
    const auto answer = std::get<AgainstPrediction>(held(woman(75)).front().answer);
    QCOMPARE(answer.predicted, 350.0);
    QCOMPARE(answer.percent, 100.0);
    QCOMPARE(answer.lowerLimit, std::optional(300.0));
    QCOMPARE(obstacles(held(unborn)), std::vector{Obstacle::AgeUnknown});
    equation.perYear = -10; // an equation that leads to nothing or below says nothing
    QVERIFY(held(woman(50)).empty());
    equation.intercept = 500.5;
    QCOMPARE(std::get<AgainstPrediction>(held(woman(50)).front().answer).predicted, 0.5);
    equation.intercept = 500;
    equation.whom.ageLow = 20;
    equation.whom.ageHigh = 80;
    QCOMPARE(obstacles(held(unborn)), std::vector{Obstacle::AgeUnknown});
    equation.perYear = 0;
    equation.perCm = 1;
    records::Patient tall = woman(75);
    QCOMPARE(obstacles(held(tall)), std::vector{Obstacle::HeightUnknown});
    tall.heightCm = 160;
    QCOMPARE(std::get<AgainstPrediction>(held(tall).front().answer).predicted, 660.0);
    equation.perKg = -1;
    QCOMPARE(obstacles(held(tall)), std::vector{Obstacle::WeightUnknown});
    tall.weightKg = 60;
    QCOMPARE(std::get<AgainstPrediction>(held(tall).front().answer).predicted, 600.0);
    records::Occasion stopped = occasion(walk, 350);
    stopped.finding.capReached = true;
    QCOMPARE(obstacles(standings(stopped, tall, book)), std::vector{Obstacle::StoppedEarly});
}

/// The fewest obstacles, the widest ages; a sex or a side only where all of them have it.
void StandingTest::rowsOfOneTableThatAllFailAreSaidOnce()
{
    const auto said = [](const std::vector<Norm>& rows, const records::Patient& patient,
                         const QString& start) {
        records::Occasion asked = occasion(rows.front().measure, 20, Side::Right);
        asked.conditions[u"start"_s] = start;
        return std::get<NoReference>(standings(asked, patient, withNorms(rows)).front().answer);
    };
    Norm young = norm(u"y"_s, peg, NormSex::Female, 20, 40, 19, 3);
    Norm old = norm(u"o"_s, peg, NormSex::Female, 70, 79, 19, 3);
    young.whom.side = old.whom.side = u"right"_s;
    const NoReference both = said({young, old}, woman(55), {});
    QCOMPARE(both.whom.sex, NormSex::Female);
    QCOMPARE(both.whom.side, u"right"_s);
    QCOMPARE(both.whom.ageLow, std::optional(20));
    QCOMPARE(both.whom.ageHigh, std::optional(79));

    Norm open = old;
    open.whom.ageHigh.reset();
    QCOMPARE(said({young, open}, woman(55), {}).whom.ageHigh, std::optional<int>());
    Norm ofMen = young;
    ofMen.whom.sex = NormSex::Male;
    records::Patient unknown = woman(30);
    unknown.sex = Sex::Unknown;
    QCOMPARE(said({young, ofMen}, unknown, {}).whom.sex, NormSex::Any);
    Norm other = young;
    young.whom.side = u"dominant"_s;
    other.whom.side = u"non-dominant"_s;
    QCOMPARE(said({young, other}, woman(30), {}).whom.side, QString());

    old.whom.condition = {u"start"_s, {u"moving"_s}};
    young.whom.side = u"right"_s;
    QCOMPARE(said({young, old}, woman(75), u"static"_s).obstacles, std::vector{Obstacle::AgeOutside});
    QCOMPARE(said({old, young}, woman(75), u"static"_s).obstacles, std::vector{Obstacle::OtherCondition});
    QCOMPARE(said({old, young}, woman(55), u"static"_s).obstacles, std::vector{Obstacle::AgeOutside});
}

void StandingTest::anAgeIsNeededWhereOneEndIsSet()
{
    records::Patient unborn = woman(75);
    unborn.born.reset();
    Norm row = norm(u"t"_s, up, NormSex::Any, 70, 79, 9, 2);
    row.whom.ageHigh.reset();
    QCOMPARE(obstacles(standings(occasion(up, 11), unborn, withNorms({row}))),
             std::vector{Obstacle::AgeUnknown});
    row.whom.ageLow.reset();
    QVERIFY(obstacles(standings(occasion(up, 11), unborn, withNorms({row}))).empty());
    QCOMPARE(obstacles(standings(occasion(up, 11), woman(17), withNorms({row}))), // values are of adults
             std::vector{Obstacle::AgeOutside});
}

void StandingTest::gradesWordsAndMissingValuesStandNowhere()
{
    const auto book = withNorms({norm(u"t"_s, up, NormSex::Any, 20, 94, 9, 2)});
    records::Occasion unable = occasion(up, 11);
    unable.finding.value = examples::unable();
    QVERIFY(standings(unable, woman(75), book).empty());
    records::Occasion grade = occasion(up, 11);
    grade.finding.measure = u"finger-nose"_s;
    grade.finding.value = values::Grade{2};
    QVERIFY(standings(grade, woman(75), book).empty());
    QVERIFY(line(book, unable, woman(75)).isEmpty());
    records::Occasion metres = occasion(up, 11);
    metres.finding.value = values::Quantity{11, values::Unit::Metre};
    QVERIFY(standings(metres, woman(75), book).empty());
    metres.finding.measure = u"long-gone"_s;
    QVERIFY(standings(metres, woman(75), book).empty());
}

void StandingTest::aReadValueComesBeforeOneFromMemory()
{
    Norm recalled = norm(u"m"_s, up, NormSex::Any, 20, 94, 9, 2);
    recalled.origin.checked = catalogue::Checked::Memory;
    Norm read = norm(u"r"_s, up, NormSex::Any, 20, 94, 10, 2);
    read.origin.source = u"hosoi"_s;
    QVERIFY(line(withNorms({recalled, read}), occasion(up, 11), woman(75)).contains(u"Hosoi 2023"_s));
    QVERIFY(line(withNorms({recalled}), occasion(up, 11), woman(75)).endsWith(u"from memory)"_s));
}

HOUSE_TEST(StandingTest)

} // namespace test_standing

#include "test_standing.moc"
