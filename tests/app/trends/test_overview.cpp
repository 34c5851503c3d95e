#include "app/trends/overview.h"

#include "app/changes/rows.h"
#include "app/session/messages.h"
#include "core/records/visit.h"
#include "tests/support/story.h"
#include "tests/support/test_support.h"

#include <algorithm>
#include <set>

using namespace Qt::StringLiterals;

namespace test_overview
{

using records::Side;
using trends::OverviewAsked;
using trends::OverviewLine;
using trends::OverviewRow;

const QString peg = u"nine-hole-peg"_s;
const QString berg = u"berg-balance"_s;
const QString drift = u"pronator-drift"_s;

struct Told {
    Story story;
    session::Session& session = story.session();

    judging::Ground groundOf(const records::AsOf& until)
    {
        return {until.visits(), session.patientInFocus(), session.catalogue(), judging};
    }
    std::vector<OverviewRow> at(size_t visit)
    {
        return trends::overview(records::AsOf(story.visit(visit), session.visits()), session.patientInFocus(),
                                session.catalogue(), judging, {}, session::screenPhrases());
    }
    void save(const records::Finding& finding) { QVERIFY(session.saveFinding(story.visit(5), finding)); }

private:
    records::Judging judging;
};

QStringList measuresOf(const std::vector<OverviewRow>& rows)
{
    QStringList measures;
    for (const OverviewRow& row : rows)
        measures << row.measure;
    return measures;
}

const OverviewRow& rowOf(const std::vector<OverviewRow>& rows, const QString& measure)
{
    return *std::ranges::find(rows, measure, &OverviewRow::measure);
}

class TestOverview : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void aMeasureNeedsTwoResultsOfASide();
    void rightAndLeftShareARow();
    void rowsStandByTheirWeightiestSide();
    void aLaterVisitDoesNotCount();
    void aResultComesToWhatTheTableOfChangesSays();
    void aWordStandsAtItsPlace();
    void anOlderResultIsJudgedAtItsOwnVisit();
    void aTargetGoesWithItsSide();
    void whatIsAskedForIsShown();
    void aConfirmedChangeIsFound();
};

void TestOverview::aMeasureNeedsTwoResultsOfASide()
{
    Told told;
    QCOMPARE(told.at(0).size(), 0U);
    const QStringList second = measuresOf(told.at(1));
    QVERIFY(second.contains(berg));
    QVERIFY(second.contains(peg));
    records::Finding once;
    once.measure = u"tandem-steps"_s;
    once.value = values::Quantity{7, values::Unit::Steps};
    told.save(once);
    QVERIFY(!measuresOf(told.at(5)).contains(once.measure));
}

void TestOverview::rightAndLeftShareARow()
{
    Told told;
    const auto rows = told.at(5);
    const QStringList measures = measuresOf(rows);
    QCOMPARE(std::set<QString>(measures.begin(), measures.end()).size(), size_t(measures.size()));
    const OverviewRow& row = rowOf(rows, peg);
    QCOMPARE(row.title, u"Nine-hole peg test"_s);
    QCOMPARE(row.lines.size(), 2U);
    QCOMPARE(row.lines[0].side, Side::Right);
    QCOMPARE(row.lines[0].first, u"24.1 s"_s);
    QCOMPARE(row.lines[0].firstDay, u"04-Mar-2024"_s);
    QCOMPARE(row.lines[0].now, u"22.6 s"_s);
    QCOMPARE(row.lines[0].course.size(), 6U);
    QCOMPARE(row.lines[1].side, Side::Left);
    QVERIFY(row.lines[1].course[0].isUnable);
}

void TestOverview::rowsStandByTheirWeightiestSide()
{
    Told told;
    const records::AsOf until(told.story.visit(5), told.session.visits());
    const auto glance = judging::glanceAt(told.story.visit(5), {}, told.groundOf(until));
    const QStringList shown = measuresOf(told.at(5));
    QStringList byWeight;
    for (const size_t place : glance->order)
        byWeight << glance->changes[place].measure;
    byWeight.removeDuplicates();
    byWeight.removeIf([&](const QString& measure) { return !shown.contains(measure); });
    QCOMPARE(shown, byWeight);
    QCOMPARE(shown.front(), u"timed-up-and-go"_s); // became unable
}

void TestOverview::aLaterVisitDoesNotCount()
{
    Told told;
    const auto rows = told.at(3);
    QCOMPARE(rowOf(rows, peg).lines[0].course.size(), 4U);
    QCOMPARE(rowOf(rows, berg).lines[0].now, u"49 points"_s);
}

void TestOverview::aResultComesToWhatTheTableOfChangesSays()
{
    Told told;
    const records::AsOf until(told.story.visit(5), told.session.visits());
    const judging::Ground ground = told.groundOf(until);
    const auto glance = judging::glanceAt(told.story.visit(5), {}, ground);
    int compared = 0;
    const auto rows = told.at(5);
    for (const changes::Row& change :
         changes::rows(*glance, changes::Against::Course, ground, session::screenPhrases())) {
        const auto row = std::ranges::find(rows, change.change.measure, &OverviewRow::measure);
        if (row == rows.end() || !change.comparison)
            continue;
        const auto line = std::ranges::find(row->lines, change.change.side, &OverviewLine::side);
        QCOMPARE(line->meaning.words, change.verdict);
        QCOMPARE(line->meaning.quiet, change.quiet);
        QCOMPARE(line->meaning.mark, change.mark);
        QCOMPARE(line->course, change.course);
        ++compared;
    }
    QVERIFY(compared > 8);
}

void TestOverview::aWordStandsAtItsPlace()
{
    Told told;
    records::Finding word;
    word.measure = drift;
    word.side = Side::Right;
    word.value = values::Choice{u"pronation-and-sinking"_s};
    told.save(word);
    const auto course = rowOf(told.at(5), drift).lines[0].course;
    QCOMPARE(course.front().number, 0);
    QVERIFY(course.back().number > 0);
}

void TestOverview::anOlderResultIsJudgedAtItsOwnVisit()
{
    Told told;
    QVERIFY(told.session.removeFinding(told.story.visit(5), berg, Side::None));
    const OverviewLine now = rowOf(told.at(5), berg).lines[0];
    const OverviewLine then = rowOf(told.at(4), berg).lines[0];
    QCOMPARE(now.now, u"51 points"_s);
    QCOMPARE(now.day, u"15-Sep-2025"_s);
    QCOMPARE(then.day, QString());
    QCOMPARE(now.meaning.words, then.meaning.words);
    QCOMPARE(now.meaning.mark, then.meaning.mark);
}

void TestOverview::aTargetGoesWithItsSide()
{
    Told told;
    records::Target target;
    target.measure = peg;
    target.side = Side::Left;
    target.value = 40;
    const auto rows = trends::overview(records::AsOf(told.story.visit(5), told.session.visits()),
                                       told.session.patientInFocus(), told.session.catalogue(), {},
                                       {{target, judging::TargetState::NotReached, false, {}, {}}}, {});
    QCOMPARE(rowOf(rows, peg).lines[1].target, 40);
    QVERIFY(!rowOf(rows, peg).lines[0].target);
}

void TestOverview::whatIsAskedForIsShown()
{
    Told told;
    const auto rows = told.at(5);
    const auto titles = [&](const OverviewAsked& asked) {
        QStringList found;
        for (const size_t place : trends::shownOf(rows, asked))
            found << rows[place].measure;
        return found;
    };
    using Group = OverviewAsked::Group;
    QCOMPARE(titles({}).size(), qsizetype(rows.size()));
    const QStringList changed = titles({Group::Changed, {}, {}});
    QVERIFY(changed.contains(u"timed-up-and-go"_s));
    QVERIFY(!changed.contains(drift)); // the same word at all six visits
    const QStringList section = titles({Group::All, rowOf(rows, berg).sectionId, {}});
    QVERIFY(section.contains(berg));
    QVERIFY(!section.contains(peg));
    QCOMPARE(titles({Group::All, {}, u"Nine peg"_s}), QStringList{peg});
    QCOMPARE(titles({Group::All, {}, u"TUG"_s}), QStringList{u"timed-up-and-go"_s});
    QCOMPARE(titles({Group::Changed, {}, u"pronator"_s}), QStringList());
}

void TestOverview::aConfirmedChangeIsFound()
{
    Told told;
    const auto rows = told.at(5);
    for (const OverviewRow& row : rows) {
        const bool isSaid = std::ranges::any_of(row.lines, [](const OverviewLine& line) {
            return line.meaning.words.contains(u"confirmed"_s) || line.meaning.words.contains(u"sustained"_s);
        });
        QCOMPARE(row.isConfirmed, isSaid);
    }
    QVERIFY(std::ranges::any_of(rows, &OverviewRow::isConfirmed));
    QVERIFY(!std::ranges::all_of(rows, &OverviewRow::isConfirmed));
}

HOUSE_TEST(TestOverview)

} // namespace test_overview

#include "test_overview.moc"
