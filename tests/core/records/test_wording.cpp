#include "core/records/wording.h"

#include "core/records/reading.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_wording
{

using records::written;
using values::Quantity;
using values::Unit;

const base::Phrasebook english;

QString words(const values::Value& value, const QString& measure)
{
    static const catalogue::Catalogue book = examples::catalogue();
    return written(value, *book.measure(measure), english);
}

QString direction(const QString& measure)
{
    static const catalogue::Catalogue book = examples::catalogue();
    return records::directionWords(*book.measure(measure), english);
}

class TestWording : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aNumberHasTheDecimalsOfItsStep();
    void withoutAStepTwoDecimalsAreShown();
    void aTrialKeepsWhatAStopwatchShowed();
    void aGradeSaysItsWord();
    void theWordsOfAScaleMayBeginAboveNothing();
    void aGradeInFullSaysWhereItStands();
    void aMeanHasOneDigitMoreThanItsTrials();
    void aChoiceIsWrittenByItsTitle();
    void whatIsMissingSaysWhy();
    void theClinicsOwnMeasureIsMarked();
    void theBetterEndIsNamed();
};

void TestWording::aNumberHasTheDecimalsOfItsStep()
{
    QCOMPARE(words(Quantity{12.5, Unit::Second}, u"ten-metre-walk-time-comfortable"_s), u"12.50 s"_s);
    QCOMPARE(words(Quantity{12.5, Unit::Second}, u"timed-up-and-go"_s), u"12.5 s"_s);
    QCOMPARE(words(Quantity{45, Unit::Score}, u"berg-balance"_s), u"45 points"_s);
    QCOMPARE(words(Quantity{12, Unit::Score}, u"sara"_s), u"12.0 points"_s);
    QCOMPARE(words(Quantity{-0.001, Unit::MetrePerSecond}, u"gait-speed-comfortable"_s), u"0.00 m/s"_s);
}

void TestWording::aMeanHasOneDigitMoreThanItsTrials()
{
    catalogue::Measure peg;
    peg.unit = Unit::Second;
    peg.kind = catalogue::Kind::Duration;
    peg.step = 0.1;
    peg.rule = catalogue::TrialRule::Mean;
    const auto shown = [&](const std::vector<double>& trials) {
        return written(records::valueOfTrials(trials, peg), peg, english);
    };
    QCOMPARE(shown({4.6, 4.5}), u"4.55 s"_s);
    QCOMPARE(shown({4.5, 4.5, 4.6}), u"4.53 s"_s);
    QCOMPARE(shown({24, 23}), u"23.5 s"_s);
    peg.step = 1;
    QCOMPARE(shown({24, 23}), u"23.5 s"_s);
    peg.rule = catalogue::TrialRule::Best;
    QCOMPARE(written(Quantity{4.5, Unit::Second}, peg, english), u"5 s"_s);
}

void TestWording::aGradeSaysItsWord()
{
    QCOMPARE(words(values::Grade{2}, u"finger-nose"_s), u"clear (2)"_s);
    QCOMPARE(words(values::Grade{0}, u"finger-nose"_s), u"as expected (0)"_s);
}

void TestWording::theWordsOfAScaleMayBeginAboveNothing()
{
    catalogue::Measure levels;
    levels.kind = catalogue::Kind::Grade;
    levels.lowest = 1;
    levels.highest = 3;
    levels.options = {{u"1"_s, u"alone"_s}, {u"2"_s, u"with help"_s}};
    const auto shown = [&](int step) { return written(values::Grade{step}, levels, english); };
    QCOMPARE(shown(1), u"alone (1)"_s);
    QCOMPARE(shown(2), u"with help (2)"_s);
    QCOMPARE(shown(3), u"grade 3"_s);
    QCOMPARE(shown(0), u"grade 0"_s);
    levels.lowest.reset();
    QCOMPARE(shown(0), u"alone (0)"_s);
}

void TestWording::withoutAStepTwoDecimalsAreShown()
{
    catalogue::Measure speed;
    speed.unit = Unit::MetrePerSecond;
    speed.kind = catalogue::Kind::Speed;
    QCOMPARE(written(1.2345, speed), u"1.23"_s);
    speed.step = 0.0005;
    QCOMPARE(written(1.2345, speed), u"1.235"_s); // no more than three
}

void TestWording::aTrialKeepsWhatAStopwatchShowed()
{
    catalogue::Measure walk;
    walk.unit = Unit::Second;
    walk.kind = catalogue::Kind::Duration;
    walk.step = 0.1;
    QCOMPARE(records::writtenTrial(12.375, walk), u"12.375"_s);
    QCOMPARE(records::writtenTrial(12 + 1e-10, walk), u"12.0"_s);
    walk.kind = catalogue::Kind::Speed;
    QCOMPARE(records::writtenTrial(1.234, walk), u"1.2"_s);
}

void TestWording::aGradeInFullSaysWhereItStands()
{
    const catalogue::Catalogue book = examples::catalogue();
    catalogue::Measure measure = *book.measure(u"finger-nose"_s);
    const auto inFull = [&](int step) {
        return records::writtenInFull(values::Grade{step}, measure, english);
    };
    QCOMPARE(inFull(2), u"clear, task done (grade 2; 0 as expected, 4 worst)"_s);
    measure.better = catalogue::Direction::HigherIsBetter;
    QCOMPARE(inFull(0), u"as expected (grade 0; 4 extreme, 0 worst)"_s);
    measure.options.clear();
    QCOMPARE(inFull(1), u"grade 1; 4 best, 0 worst"_s);
    measure.better = catalogue::Direction::Neither;
    QCOMPARE(inFull(1), u"grade 1"_s);
    QCOMPARE(records::written(values::Grade{1}, measure, english), u"grade 1"_s);
}

void TestWording::aChoiceIsWrittenByItsTitle()
{
    QCOMPARE(words(values::Choice{u"pronation"_s}, u"pronator-drift"_s), u"pronation and sinking"_s);
    QCOMPARE(words(values::Choice{u"old-word"_s}, u"pronator-drift"_s), u"old-word"_s);
}

void TestWording::whatIsMissingSaysWhy()
{
    QCOMPARE(words(examples::unable(u"felt unsafe"_s), u"timed-up-and-go"_s), u"unable: felt unsafe"_s);
    QCOMPARE(words(examples::unable(), u"timed-up-and-go"_s), u"unable"_s);
    QCOMPARE(words(values::Missing{values::Absence::NotAttempted, u"pain"_s}, u"timed-up-and-go"_s),
             u"not attempted: pain"_s);
    QCOMPARE(written(values::Absence::Unable, english), u"tried and unable"_s);
    QCOMPARE(written(values::Absence::NotAsked, english), u"not asked"_s);
    QCOMPARE(written(records::Side::None, english), QString());
    QCOMPARE(written(records::Side::Left, english), u"left"_s);
}

void TestWording::theClinicsOwnMeasureIsMarked()
{
    catalogue::Measure measure = examples::measures().front();
    QCOMPARE(records::titled(measure, english), u"Finger to nose"_s);
    measure.isOwn = true;
    QCOMPARE(records::titled(measure, english), u"Finger to nose (the clinic's own)"_s);
}

void TestWording::theBetterEndIsNamed()
{
    QCOMPARE(direction(u"finger-nose"_s), u"0 is best, 4 is worst"_s);
    QCOMPARE(direction(u"berg-balance"_s), u"56 is best, 0 is worst"_s);
    QCOMPARE(direction(u"timed-up-and-go"_s), u"lower is better"_s);
    QCOMPARE(direction(u"cadence"_s), QString());
}

HOUSE_TEST(TestWording)

} // namespace test_wording

#include "test_wording.moc"
