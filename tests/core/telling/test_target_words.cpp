#include "core/telling/target_words.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_target_words
{

using judging::TargetProgress;
using judging::TargetState;
using records::Side;
using values::Quantity;
using values::Unit;

const base::Phrasebook english;
const QString walk = u"six-minute-walk"_s;

const catalogue::Catalogue& book()
{
    static const catalogue::Catalogue made = examples::catalogue();
    return made;
}

TargetProgress progress(TargetState state, double value = 400, const QString& measure = walk,
                        Side side = Side::None)
{
    TargetProgress made;
    made.target.measure = measure;
    made.target.side = side;
    made.target.value = value;
    made.target.agreedOn = QDate(2026, 2, 1);
    made.state = state;
    return made;
}

QString goal(double value, const QString& measure, std::optional<QDate> by = {})
{
    TargetProgress made = progress(TargetState::NotSeen, value, measure);
    made.target.by = by;
    return telling::goalWords(made.target, *book().measure(measure), english);
}

/// Reached on 3 March, held against a result from before with this verdict.
QString reached(std::optional<judging::Verdict> verdict, TargetState state = TargetState::ReachedWithinError)
{
    TargetProgress made = progress(state);
    made.now = records::Occasion{};
    made.now->day = QDate(2026, 3, 3);
    if (verdict) {
        made.since = judging::Comparison{};
        made.since->verdict = *verdict;
    }
    return telling::standingWords(made, english);
}

class TestTargetWords : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aGoalSaysWhichWay()
    {
        QCOMPARE(goal(400, walk), u"at least 400 m"_s);
        QCOMPARE(goal(400, walk, QDate(2027, 3, 12)), u"at least 400 m by 12-Mar-2027"_s);
        QCOMPARE(goal(20.5, u"nine-hole-peg"_s), u"at most 20.5 s"_s);
        QCOMPARE(goal(1, u"finger-nose"_s), u"just visible (1) or better"_s);
        QCOMPARE(goal(0, u"finger-nose"_s), u"as expected (0)"_s);
    }

    void everyStandingHasItsWords()
    {
        using judging::Verdict;
        QCOMPARE(reached(Verdict::Better, TargetState::ReachedBeyondError), u"reached beyond error"_s);
        QCOMPARE(reached(Verdict::WithinError), u"reached; the change since it was agreed is within error"_s);
        QCOMPARE(reached(Verdict::Worse), u"reached, though worse beyond error than when it was agreed"_s);
        QCOMPARE(reached(Verdict::StepBetter),
                 u"reached; no error is known for the change since it was agreed"_s);
        QCOMPARE(reached({}), u"reached; there is no comparable result from before it was agreed"_s);
        TargetProgress before = progress(TargetState::ReachedWithinError);
        before.now = records::Occasion{};
        before.now->day = before.target.agreedOn;
        QCOMPARE(telling::standingWords(before, english), u"reached when it was agreed already"_s);
        TargetProgress open = progress(TargetState::NotReached);
        QCOMPARE(telling::standingWords(open, english), u"not reached"_s);
        open.isOverdue = true;
        QCOMPARE(telling::standingWords(open, english), u"not reached, and its day has passed"_s);
        open.state = TargetState::NotSeen;
        QCOMPARE(telling::standingWords(open, english), u"the test was not done, and its day has passed"_s);
        open.isOverdue = false;
        QCOMPARE(telling::standingWords(open, english), u"the test was not done yet"_s);
        open.state = TargetState::NoLongerLookedAt;
        open.target.droppedFor = u"moved away"_s;
        QCOMPARE(telling::standingWords(open, english), u"no longer looked at: “moved away”"_s);
    }

    void theWholeIsOneSentence()
    {
        TargetProgress made = progress(TargetState::NotReached, 40, u"nine-hole-peg"_s, Side::Left);
        const catalogue::Measure& peg = *book().measure(u"nine-hole-peg"_s);
        made.target.by = QDate(2026, 6, 1);
        made.now = records::Occasion{};
        made.now->day = QDate(2026, 3, 3);
        made.now->finding = examples::finding(u"nine-hole-peg"_s, Quantity{52, Unit::Second}, Side::Left);
        QCOMPARE(
            telling::targetWords(made, peg, english),
            u"Nine-hole peg test, left: at most 40.0 s by 01-Jun-2026; 52.0 s on 03-Mar-2026, not reached."_s);
        made.now.reset();
        made.state = TargetState::NotSeen;
        QCOMPARE(telling::targetWords(made, peg, english),
                 u"Nine-hole peg test, left: at most 40.0 s by 01-Jun-2026; the test was not done yet."_s);
    }
};

HOUSE_TEST(TestTargetWords)

} // namespace test_target_words

#include "test_target_words.moc"
