#include "core/judging/repeats.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_repeats
{

using judging::RepeatCandidates;
using judging::RepeatSource;
using records::Side;
using records::Visit;

const records::Conditions stable = {{u"retest"_s, u"no-change-expected"_s}};

records::Finding peg(const std::vector<double>& trials, Side side = Side::Right)
{
    auto finding = examples::finding(u"nine-hole-peg"_s, values::Missing{}, side);
    finding.trials = trials;
    if (!trials.empty())
        finding.value = values::Quantity{trials.front(), values::Unit::Second};
    return finding;
}

Visit pegs(const QString& id, QDate day, const std::vector<double>& trials,
           const records::Conditions& conditions = {})
{
    return examples::visit(id, day, {peg(trials)}, conditions);
}

Visit walk(const QString& id, QDate day, double seconds, const QString& aid, bool isMarked)
{
    records::Conditions conditions = {{u"aid"_s, aid}, {u"distance_m"_s, u"10"_s}};
    if (isMarked)
        conditions.insert(stable);
    return examples::visit(id, day,
                           {examples::finding(u"ten-metre-walk-time-comfortable"_s,
                                              values::Quantity{seconds, values::Unit::Second})},
                           conditions);
}

const QDate winter(2026, 1, 10);
const QDate spring(2026, 3, 12);

RepeatCandidates ofTrials(const std::vector<Visit>& visits, Side side = Side::Right)
{
    static const auto book = examples::catalogue();
    return judging::repeatCandidates({u"nine-hole-peg"_s, side, RepeatSource::Trials}, visits, {}, book);
}

RepeatCandidates ofMarked(const std::vector<Visit>& visits,
                          const QString& measure = u"ten-metre-walk-time-comfortable"_s,
                          const QString& asked = {}, const QString& population = {})
{
    static const auto book = examples::catalogue();
    return judging::repeatCandidates({measure, Side::None, RepeatSource::MarkedVisits, asked}, visits,
                                     population, book);
}

using Row = std::vector<double>;

class TestRepeats : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void theTrialsOfAVisitAreARow();
    void eachSideIsItsOwn();
    void draftsAndSingleTrialsGiveNothing();
    void trialsThatReachedTheCapGiveNothing();
    void aMarkedVisitPairsWithTheOneBefore();
    void aMarkedVisitWithoutTheResultBeforeGivesNothing();
    void aMarkedVisitUnderOtherConditionsGivesNothing();
    void aMarkedVisitOfTheSameDayGivesNothing();
    void onlyThePopulationAskedForIsTaken();
    void eachPatientCountsOnce();
    void theMostCommonNumberOfTrialsIsTaken();
    void ofTwoNumbersAsCommonTheLargerIsTaken();
    void theDaysOfTheRowsAreKept();
    void withoutResultsThereIsNoRow();
};

void TestRepeats::theTrialsOfAVisitAreARow()
{
    const auto found = ofTrials({pegs(u"a"_s, winter, {21.5, 20.9}), pegs(u"b"_s, spring, {20, 19, 18})});
    QVERIFY(found.isAsked);
    QCOMPARE(found.results.size(), size_t(2));
    QCOMPARE(found.results[0].values, (Row{21.5, 20.9}));
    QCOMPARE(found.results[1].values, (Row{20, 19, 18}));
    QCOMPARE(found.results[1].day, spring);
    QCOMPARE(found.results[1].days, 0);
}

void TestRepeats::eachSideIsItsOwn()
{
    const std::vector visits = {examples::visit(u"a"_s, winter, {peg({21, 20}), peg({30, 31}, Side::Left)})};
    QCOMPARE(ofTrials(visits).results.front().values, (Row{21, 20}));
    QCOMPARE(ofTrials(visits, Side::Left).results.front().values, (Row{30, 31}));
    QVERIFY(!ofTrials(visits, Side::None).isAsked);
}

void TestRepeats::draftsAndSingleTrialsGiveNothing()
{
    auto draft = pegs(u"a"_s, winter, {21, 20});
    draft.state = records::VisitState::Draft;
    QVERIFY(!ofTrials({draft}).isAsked);
    QVERIFY(ofTrials({draft, pegs(u"b"_s, spring, {21, 20})}).isAsked);

    const auto single = ofTrials({pegs(u"b"_s, spring, {21})});
    QVERIFY(single.isAsked);
    QVERIFY(single.results.empty());
}

void TestRepeats::trialsThatReachedTheCapGiveNothing()
{
    auto visit = pegs(u"a"_s, winter, {300, 300});
    visit.findings.front().capReached = true;
    const auto found = ofTrials({visit});
    QVERIFY(found.isAsked);
    QVERIFY(found.results.empty());
}

void TestRepeats::aMarkedVisitPairsWithTheOneBefore()
{
    const auto found =
        ofMarked({walk(u"a"_s, winter, 9.5, u"none"_s, false), walk(u"b"_s, spring, 9.1, u"none"_s, true),
                  walk(u"c"_s, spring.addDays(7), 8.0, u"none"_s, false)});
    QCOMPARE(found.results.size(), size_t(1));
    QCOMPARE(found.results.front().values, (Row{9.5, 9.1}));
    QCOMPARE(found.results.front().days, 61);
}

void TestRepeats::aMarkedVisitWithoutTheResultBeforeGivesNothing()
{
    const auto first = ofMarked({walk(u"a"_s, winter, 9.5, u"none"_s, true)});
    QVERIFY(first.isAsked);
    QVERIFY(first.results.empty());

    const auto skipped =
        ofMarked({walk(u"a"_s, winter, 9.5, u"none"_s, false), pegs(u"b"_s, winter.addDays(20), {20, 21}),
                  walk(u"c"_s, spring, 9.1, u"none"_s, true)});
    QVERIFY(skipped.results.empty()); // nobody said that nothing changed since the walk before

    Visit unable = walk(u"u"_s, winter, 9.5, u"none"_s, false);
    unable.findings.front().value = examples::unable();
    const Visit marked = walk(u"c"_s, spring, 9.1, u"none"_s, true);
    QVERIFY(ofMarked({unable, marked}).isAsked && ofMarked({unable, marked}).results.empty());
    Visit unableNow = marked;
    unableNow.findings.front().value = examples::unable();
    QVERIFY(ofMarked({walk(u"a"_s, winter, 9.5, u"none"_s, false), unableNow}).results.empty());
}

void TestRepeats::aMarkedVisitUnderOtherConditionsGivesNothing()
{
    const auto found =
        ofMarked({walk(u"a"_s, winter, 9.5, u"stick"_s, false), walk(u"b"_s, spring, 9.1, u"none"_s, true)});
    QVERIFY(found.isAsked);
    QVERIFY(found.results.empty());
}

void TestRepeats::aMarkedVisitOfTheSameDayGivesNothing()
{
    const auto found =
        ofMarked({walk(u"a"_s, winter, 9.5, u"none"_s, false), walk(u"b"_s, winter, 9.1, u"none"_s, true)});
    QVERIFY(found.isAsked);
    QVERIFY(found.results.empty());
}

void TestRepeats::onlyThePopulationAskedForIsTaken()
{
    const QString speed = u"ten-metre-walk-time-comfortable"_s;
    const std::vector visits = {walk(u"a"_s, winter, 9.5, u"none"_s, false),
                                walk(u"b"_s, spring, 9.1, u"none"_s, true)};
    QCOMPARE(ofMarked(visits, speed, u"stroke"_s, u"stroke-subacute"_s).results.size(), size_t(1));
    QCOMPARE(ofMarked(visits, speed, {}, u"parkinson"_s).results.size(), size_t(1));
    for (const QString& other : {u"parkinson"_s, u"stroke"_s, QString()}) {
        const auto found = ofMarked(visits, speed, u"stroke-subacute"_s, other);
        QVERIFY(!found.isAsked); // not left out either: they were never meant
        QVERIFY(found.results.empty());
    }
}

void TestRepeats::eachPatientCountsOnce()
{
    const auto all =
        judging::repeatedResults({ofTrials({pegs(u"a"_s, winter, {21, 20}), pegs(u"b"_s, spring, {22, 23})}),
                                  ofTrials({pegs(u"c"_s, spring, {30, 29})})});
    QCOMPARE(all.repeats, (statistics::Repeats{{21, 20}, {30, 29}}));
    QCOMPARE(all.leftOut, 0);
}

void TestRepeats::theMostCommonNumberOfTrialsIsTaken()
{
    const auto all = judging::repeatedResults(
        {ofTrials({pegs(u"a"_s, winter, {21, 20, 19})}), ofTrials({pegs(u"b"_s, winter, {25, 24})}),
         ofTrials({pegs(u"c"_s, winter, {28, 29})}), ofTrials({pegs(u"d"_s, winter, {31})}), ofTrials({})});
    QCOMPARE(all.repeats, (statistics::Repeats{{25, 24}, {28, 29}}));
    QCOMPARE(all.leftOut, 2); // three trials, and one; who was never measured is not counted
}

void TestRepeats::ofTwoNumbersAsCommonTheLargerIsTaken()
{
    const auto all = judging::repeatedResults(
        {ofTrials({pegs(u"a"_s, winter, {25, 24})}), ofTrials({pegs(u"b"_s, winter, {21, 20, 19})})});
    QCOMPARE(all.repeats, (statistics::Repeats{{21, 20, 19}}));
}

void TestRepeats::theDaysOfTheRowsAreKept()
{
    const auto all = judging::repeatedResults(
        {ofMarked({walk(u"a"_s, winter, 9.5, u"none"_s, false), walk(u"b"_s, spring, 9.1, u"none"_s, true)}),
         ofMarked({walk(u"c"_s, winter.addDays(3), 8, u"none"_s, false),
                   walk(u"d"_s, winter.addDays(10), 8.2, u"none"_s, true)})});
    QCOMPARE(all.from, winter);
    QCOMPARE(all.to, spring);
    QCOMPARE(all.fewestDays, 7);
    QCOMPARE(all.mostDays, 61);
}

void TestRepeats::withoutResultsThereIsNoRow()
{
    const auto all = judging::repeatedResults({});
    QVERIFY(all.repeats.empty());
    QVERIFY(!all.from.isValid());
    QVERIFY(!ofMarked({pegs(u"a"_s, winter, {1, 2})}, u"no-such-measure"_s).isAsked);
}

HOUSE_TEST(TestRepeats)

} // namespace test_repeats

#include "test_repeats.moc"
