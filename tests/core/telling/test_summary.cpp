#include "core/records/patient.h"
#include "core/telling/outcome_words.h"
#include "core/telling/plain_words.h"
#include "core/telling/summary.h"

#include "tests/support/test_support.h"
#include "tests/support/visited.h"

using namespace Qt::StringLiterals;

namespace test_summary
{

using records::Finding;
using records::Side;
using telling::LineKind;
using telling::SummaryLine;
using values::Absence;
using values::Grade;
using values::Missing;
using values::Quantity;
using values::Unit;

const base::Phrasebook english;

struct Person : examples::Visited {
    std::vector<SummaryLine> lines() const { return telling::summary(glance(), catalogue, english); }
    QString line(LineKind kind) const
    {
        const auto all = lines();
        const auto found = std::ranges::find(all, kind, &SummaryLine::kind);
        return found == all.end() ? QString() : found->text;
    }
    QString plain() const ///< of the first result
    {
        const judging::Glance at = glance();
        return telling::plainWords(at.outcomes[0], at.changes[0], catalogue, english);
    }
};

Finding points(double number)
{
    return examples::finding(u"berg-balance"_s, Quantity{number, Unit::Score});
}

Finding grade(int step, Side side = Side::Right)
{
    return examples::finding(u"finger-nose"_s, Grade{step}, side);
}

Finding walk(const QString& aid)
{
    Finding walked = examples::finding(u"ten-metre-walk-time-comfortable"_s, Quantity{10, Unit::Second});
    walked.exceptions = {{u"aid"_s, aid}, {u"distance_m"_s, u"10"_s}};
    return walked;
}

judging::TargetProgress aimed(const QString& measure, double value, judging::TargetState state)
{
    judging::TargetProgress progress;
    progress.target.measure = measure;
    progress.target.value = value;
    progress.target.by = QDate(2027, 3, 1);
    progress.state = state;
    return progress;
}

class TestSummary : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aTargetIsSaidAtTheEndOfTheFirstLine()
    {
        Person person;
        person.visit({points(40)});
        person.visit({points(40)});
        const auto before = person.lines();
        const auto lines = telling::summary(person.glance(), person.catalogue, english,
                                            {aimed(u"berg-balance"_s, 50, judging::TargetState::NotReached)});
        QCOMPARE(lines.size(), before.size());
        QCOMPARE(lines[0].kind, LineKind::NothingNew);
        QCOMPARE(
            lines[0].text,
            before[0].text +
                u" · target: Berg balance scale: total at least 50 points by 01-Mar-2027, not reached"_s);
        QVERIFY(lines[0].measures.contains(u"berg-balance"_s));
        QCOMPARE(lines[0].results, 1);
    }

    void oneReachedBeyondErrorIsSaidOfWhatIsBetter()
    {
        Person person;
        person.visit({points(20), grade(1)});
        person.visit({points(40), grade(3)});
        const auto lines =
            telling::summary(person.glance(), person.catalogue, english,
                             {aimed(u"berg-balance"_s, 38, judging::TargetState::ReachedBeyondError),
                              aimed(u"timed-up-and-go"_s, 12, judging::TargetState::NotSeen)});
        QCOMPARE(lines[0].kind, LineKind::Changed);
        QVERIFY2(lines[0].text.endsWith(u"the test was not done yet"_s), qPrintable(lines[0].text));
        QCOMPARE(lines[1].kind, LineKind::Better);
        QVERIFY2(lines[1].text.endsWith(u"reached beyond error"_s), qPrintable(lines[1].text));
    }

    void whereNothingIsRecordedNoTargetMakesALine()
    {
        Person person;
        person.visit({});
        QVERIFY(telling::summary(person.glance(), person.catalogue, english,
                                 {aimed(u"berg-balance"_s, 50, judging::TargetState::NotSeen)})
                    .empty());
    }

    void nothingNewIsOneSentence();
    void theFirstVisitHasNothingToCompareWith();
    void aDeclineSaysSinceWhenAndOverHowManyVisits();
    void aTrendIsNamedAsTheRowsNameIt();
    void whatCouldBeChanceIsToldApart();
    void aTurnNamesBothMeans();
    void whoBecameUnableIsNamedWithTheDay();
    void aSingleStepIsCountedAndTwoAreNamed();
    void oneSideStandsForBoth();
    void whatIsNotComparedSaysWhyOnce();
    void whatIsMissingSaysWhy();
    void whatChangedSaysWhichWayItGoes();
    void eventsAreCounted();
    void atMostFiveLinesInTheirOrder();
    void aLineNamesFourAndCountsTheRest();
    void theSentenceOfARowAsksForNoStatistics();
    void nothingRecordedSaysNothing();
};

void TestSummary::nothingNewIsOneSentence()
{
    Person person;
    person.visit({points(50), grade(1)});
    person.visit({points(51), grade(1)});
    const auto lines = person.lines();
    QCOMPARE(lines.size(), size_t(1));
    QCOMPARE(lines.front().kind, LineKind::NothingNew);
    QCOMPARE(lines.front().label, u"As before"_s);
    QCOMPARE(lines.front().text, u"Nothing beyond error in 2 results compared"_s);
}

void TestSummary::theFirstVisitHasNothingToCompareWith()
{
    Person person;
    person.visit({points(50)});
    const auto lines = person.lines();
    QCOMPARE(lines.size(), size_t(1));
    QCOMPARE(lines.front().kind, LineKind::NothingNew);
    QCOMPARE(lines.front().label, u"First results"_s);
    QCOMPARE(lines.front().text, u"Nothing to compare with yet"_s);
    person.ask({u"berg-balance"_s});
    person.visit({});
    QCOMPARE(person.lines().front().kind, LineKind::Missing);
}

void TestSummary::aDeclineSaysSinceWhenAndOverHowManyVisits()
{
    Person person;
    for (const double number : {54, 52, 49, 47, 44, 42, 39, 37})
        person.visit({points(number)});
    const auto lines = person.lines();
    QCOMPARE(lines.size(), size_t(1));
    QCOMPARE(lines.front().label, u"Worse"_s);
    QVERIFY2(lines.front().text.startsWith(u"Sustained over 8 visits, since "_s),
             qPrintable(lines.front().text));
    QVERIFY(lines.front().text.endsWith(u"2025: Berg balance scale: total: 54 → 37 points"_s));
    QCOMPARE(lines.front().measures, QStringList{u"berg-balance"_s});
    QVERIFY(lines.front().since);
}

void TestSummary::aTrendIsNamedAsTheRowsNameIt()
{
    Person person;
    const auto isTrendOnce = [&] {
        const auto claim = person.glance().outcomes[0].claim;
        return claim && claim->strength == judging::Strength::TrendSeenOnce;
    };
    person.visit({points(54)});
    for (int each = 1; each < 8 && !isTrendOnce(); ++each)
        person.visit({points(54 - 1.8 * each)});
    QVERIFY(isTrendOnce());
    const judging::Glance at = person.glance();
    const QString line = person.line(LineKind::Worse);
    QVERIFY2(line.contains(u"rend, seen once, new at this visit: Berg balance scale"_s), qPrintable(line));
    QCOMPARE(telling::claimWords(*at.outcomes[0].claim, english), u"worse, trend, seen once"_s);
    judging::Claim later = *at.outcomes[0].claim;
    later.since = later.since.addDays(-84);
    const QString since = records::dayInWords(later.since, english);
    QCOMPARE(telling::strengthWords(later, at.changes[0], later.since, english),
             u"trend, seen once, since "_s + since);
}

void TestSummary::whatCouldBeChanceIsToldApart()
{
    Person person;
    const auto hold = [](double seconds) {
        return examples::finding(u"romberg-eyes-closed"_s, Quantity{seconds, Unit::Second});
    };
    person.visit({points(50), hold(40)});
    person.visit({points(44.4), hold(41)});
    QCOMPARE(person.line(LineKind::Worse), u"Which could be chance with 2 results judged: seen once: Berg "
                                           "balance scale: total: 50 → 44 points"_s);
}

void TestSummary::aTurnNamesBothMeans()
{
    Person person;
    for (const double number : {24, 30, 37, 44, 50, 53, 43, 38})
        person.visit({points(number)});
    const QString worse = person.line(LineKind::Worse);
    QVERIFY2(worse.contains(u"turned from 51.5 points to 40.5 points (over the whole course better, "_s),
             qPrintable(worse));
    QVERIFY(person.line(LineKind::Better).isEmpty());
}

void TestSummary::whoBecameUnableIsNamedWithTheDay()
{
    Person person;
    person.visit({points(50)});
    person.visit({examples::finding(u"berg-balance"_s, examples::unable())});
    QCOMPARE(person.line(LineKind::Changed),
             u"Became unable: Berg balance scale: total (since 31-Mar-2025)"_s);
}

void TestSummary::aSingleStepIsCountedAndTwoAreNamed()
{
    Person person;
    person.visit({grade(0, Side::Right), grade(1, Side::Left)});
    person.visit({grade(3, Side::Right), grade(2, Side::Left)});
    QCOMPARE(person.line(LineKind::Changed),
             u"Finger to nose, right: 0 → 3 · by one step, as examiners may differ: 1 worse, 0 better"_s);
    Person other;
    other.visit({grade(1)});
    other.visit({grade(2)});
    QCOMPARE(other.line(LineKind::NothingNew), u"Nothing beyond error in 1 result compared · by one step, "
                                               "as examiners may differ: 1 worse, 0 better"_s);
}

void TestSummary::oneSideStandsForBoth()
{
    Person person;
    person.visit({grade(0, Side::Right), grade(0, Side::Left)});
    person.visit({grade(2, Side::Right), grade(3, Side::Left)});
    QCOMPARE(person.line(LineKind::Changed), u"Finger to nose, both sides (left 0 → 3)"_s);
}

void TestSummary::whatIsNotComparedSaysWhyOnce()
{
    Person person;
    person.visit({walk(u"none"_s)});
    person.visit({walk(u"stick"_s)});
    QCOMPARE(person.line(LineKind::NotCompared),
             u"Walking aid was “none”, now “stick”: 10-metre walk time: comfortable pace"_s);
}

void TestSummary::whatIsMissingSaysWhy()
{
    Person person;
    person.ask({u"berg-balance"_s, u"finger-nose"_s});
    person.visit({points(50), grade(1)});
    person.visit(
        {points(50), examples::finding(u"finger-nose"_s, Missing{Absence::NotAttempted, u"arm in plaster"_s},
                                       Side::Right)});
    QCOMPARE(person.line(LineKind::Missing), u"Finger to nose (not attempted: arm in plaster)"_s);
    person.visit({grade(1)});
    QCOMPARE(person.line(LineKind::Missing), u"Berg balance scale: total"_s);
}

/// Unable is worse, a word that is normal again better; both together go neither way.
void TestSummary::whatChangedSaysWhichWayItGoes()
{
    const auto drift = [](const QString& key) {
        return examples::finding(u"pronator-drift"_s, values::Choice{key}, Side::Left);
    };
    const auto label = [](const std::vector<Finding>& before, const std::vector<Finding>& now) {
        Person person;
        person.visit(before);
        person.visit(now);
        return person.lines().front().label;
    };
    const Finding unable = examples::finding(u"berg-balance"_s, examples::unable());
    QCOMPARE(label({points(50)}, {unable}), u"Changed for the worse"_s);
    QCOMPARE(label({drift(u"none"_s)}, {drift(u"pronation"_s)}), u"Changed for the worse"_s);
    QCOMPARE(label({drift(u"pronation"_s)}, {drift(u"none"_s)}), u"Changed for the better"_s);
    QCOMPARE(label({points(50), drift(u"pronation"_s)}, {unable, drift(u"none"_s)}), u"Changed"_s);
}

void TestSummary::eventsAreCounted()
{
    Person person;
    catalogue::Measure falls = *person.catalogue.measure(u"tandem-steps"_s);
    falls.id = u"falls"_s;
    falls.title = u"Falls since the last visit"_s;
    falls.unit = Unit::One;
    falls.countsEvents = true;
    falls.watchFor = {{u"injury"_s, u"with injury"_s}};
    person.catalogue.measures.push_back(falls);
    Finding two = examples::finding(u"falls"_s, Quantity{2, Unit::One});
    person.visit({two});
    two.signs = {u"injury"_s};
    person.visit({two});
    QCOMPARE(person.line(LineKind::Changed), u"Falls since the last visit: 2, with injury"_s);
}

void TestSummary::atMostFiveLinesInTheirOrder()
{
    Person person;
    person.ask({u"pronator-drift"_s});
    const auto speed = [](double number) {
        Finding made = examples::finding(u"romberg-eyes-closed"_s, Quantity{number, Unit::Second});
        return made;
    };
    const Finding drift = examples::finding(u"pronator-drift"_s, values::Choice{u"none"_s}, Side::Left);
    person.visit({points(54), speed(5), grade(0), walk(u"none"_s), drift});
    person.visit({points(34), speed(58), grade(3), walk(u"stick"_s)});
    std::vector<LineKind> kinds;
    for (const SummaryLine& line : person.lines())
        kinds.push_back(line.kind);
    QCOMPARE(kinds, (std::vector{LineKind::Worse, LineKind::Changed, LineKind::Better, LineKind::NotCompared,
                                 LineKind::Missing}));
}

void TestSummary::aLineNamesFourAndCountsTheRest()
{
    Person person;
    std::vector<Finding> before;
    std::vector<Finding> after;
    for (int each = 0; each < 6; ++each) {
        catalogue::Measure measure = *person.catalogue.measure(u"pronator-drift"_s);
        measure.id = u"drift-%1"_s.arg(each);
        measure.title = u"Drift %1"_s.arg(each);
        measure.hasSides = false;
        person.catalogue.measures.push_back(measure);
        before.push_back(examples::finding(measure.id, values::Choice{u"none"_s}));
        after.push_back(examples::finding(measure.id, values::Choice{u"pronation"_s}));
    }
    person.visit(before);
    person.visit(after);
    const QString changed = person.line(LineKind::Changed);
    QVERIFY2(changed.contains(u"Drift 3"_s) && !changed.contains(u"Drift 4"_s), qPrintable(changed));
    QVERIFY2(changed.endsWith(u" · and 2 more"_s), qPrintable(changed));
    QCOMPARE(person.lines().front().measures.size(), 6);
}

void TestSummary::theSentenceOfARowAsksForNoStatistics()
{
    Person person;
    person.visit({points(50)});
    QCOMPARE(person.plain(), u"The first result; there is nothing to compare with yet."_s);
    person.visit({points(49)});
    QCOMPARE(person.plain(),
             u"49 points now against 50 points on 06-Jan-2025: no more than measurement error explains."_s);
    person.visit({points(40)});
    QCOMPARE(person.plain(), u"40 points now against 50 points on 06-Jan-2025: more than measurement error "
                             "explains. Whether it lasts, the next visits will show."_s);
    Person turned;
    for (const double number : {24, 30, 37, 44, 50, 53, 43, 38})
        turned.visit({points(number)});
    QVERIFY2(turned.plain().startsWith(u"The last two visits lie at 40.5 points on average, those of "_s),
             qPrintable(turned.plain()));
    Person apart;
    apart.visit({walk(u"none"_s)});
    apart.visit({walk(u"stick"_s)});
    QVERIFY2(apart.plain().endsWith(u", but not to be compared: walking aid was “none”, now “stick”."_s),
             qPrintable(apart.plain()));
}

void TestSummary::nothingRecordedSaysNothing()
{
    Person person;
    person.visit({});
    QVERIFY(person.lines().empty());
}

HOUSE_TEST(TestSummary)

} // namespace test_summary

#include "test_summary.moc"
