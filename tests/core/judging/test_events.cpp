#include "core/judging/composite.h"
#include "core/judging/events.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_events
{

using examples::finding;
using examples::visit;
using judging::Event;
using records::Side;
using records::Visit;
using values::Quantity;
using values::Unit;

const QString peg = u"nine-hole-peg"_s;

Visit pegs(int week, std::optional<double> right, std::optional<double> left)
{
    const auto valueOf = [](std::optional<double> seconds) {
        return seconds ? values::Value(Quantity{*seconds, Unit::Second}) : examples::unable();
    };
    return visit(u"w%1"_s.arg(week), QDate(2026, 1, 5).addDays(week * 7),
                 {finding(peg, valueOf(right), Side::Right), finding(peg, valueOf(left), Side::Left)});
}

records::Patient patient(const QString& population = u"multiple-sclerosis"_s)
{
    records::Patient made = examples::patient(population);
    made.dominantHand = records::Hand::Right;
    return made;
}

std::vector<judging::CompositeWorsening> worsened(const std::vector<Visit>& visits, std::optional<int> weeks,
                                                  const QString& population = u"multiple-sclerosis"_s)
{
    const catalogue::Catalogue book = examples::catalogue();
    const records::Patient who = patient(population);
    const records::Judging judging{8, weeks};
    return judging::compositeWorsenings({visits, who, book, judging});
}

class TestEvents : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void turnsOfEachSideAreEvents();
    void sidesDifferOnlyBeyondErrorEitherWay();
    void whatDiffersOneWayOnlyIsNoEvent();
    void whereOneSideCannotBeJudgedNothingTurns();
    void withoutARowSidesAreNotJudged();
    void theCompositeNeedsTwentyPercentAndTheTime();
    void theCompositeIsForMultipleSclerosisAndSwitchedOn();
};

void TestEvents::turnsOfEachSideAreEvents()
{
    const std::vector<Visit> visits = {pegs(0, 20, 20), pegs(1, {}, 21), pegs(2, {}, 20), pegs(3, 22, 20)};
    const std::vector<Event> expected = {
        {{u"w1"_s}, visits[1].day, Event::Kind::BecameUnable, Side::Right},
        {{u"w3"_s}, visits[3].day, Event::Kind::BecameAble, Side::Right},
    };
    QCOMPARE(judging::events(peg, visits, patient(), examples::catalogue()), expected);
    // Who did not wish to was neither able nor unable.
    std::vector<Visit> refused = visits;
    refused.insert(refused.begin() + 1, visits[1]);
    refused[1].id = refused[1].series = {u"refused"_s};
    refused[1].day = refused[1].day.addDays(-1);
    for (records::Finding& finding : refused[1].findings)
        finding.value = values::Missing{values::Absence::Refused, {}};
    QCOMPARE(judging::events(peg, refused, patient(), examples::catalogue()), expected);
}

/// From the right 24 to the left 20 is within the 29.1 % of that hand, back it is beyond the 19.4 % of the
/// other.
void TestEvents::whatDiffersOneWayOnlyIsNoEvent()
{
    QVERIFY(judging::events(peg, {pegs(0, 24, 20)}, patient(), examples::catalogue()).empty());
}

void TestEvents::whereOneSideCannotBeJudgedNothingTurns()
{
    catalogue::Catalogue book = examples::catalogue();
    auto& row = *std::ranges::find(book.thresholds, u"peg-ms-dominant"_s, &catalogue::Threshold::id);
    row.bandHigh = 40; // of the left, which the right is held against
    const std::vector<Visit> visits = {pegs(0, 20, 30), pegs(1, 20, 60)};
    const std::vector<Event> expected = {{{u"w0"_s}, visits[0].day, Event::Kind::SidesDiffer, Side::None}};
    QCOMPARE(judging::events(peg, visits, patient(), book), expected);
}

void TestEvents::sidesDifferOnlyBeyondErrorEitherWay()
{
    // 19.4 % (dominant) and 29.1 % (non-dominant): 24 against 20 is beyond neither from 24, 30 against 20 is.
    const std::vector<Visit> visits = {pegs(0, 20, 24), pegs(1, 20, 30), pegs(2, 20, 31), pegs(3, 20, 22)};
    const std::vector<Event> expected = {
        {{u"w1"_s}, visits[1].day, Event::Kind::SidesDiffer, Side::None},
        {{u"w3"_s}, visits[3].day, Event::Kind::SidesAlike, Side::None},
    };
    QCOMPARE(judging::events(peg, visits, patient(), examples::catalogue()), expected);
}

void TestEvents::withoutARowSidesAreNotJudged()
{
    QVERIFY(judging::events(peg, {pegs(0, 20, 90)}, patient(u"stroke"_s), examples::catalogue()).empty());
    QVERIFY(judging::events(u"unknown"_s, {pegs(0, 20, 90)}, patient(), examples::catalogue()).empty());
}

void TestEvents::theCompositeNeedsTwentyPercentAndTheTime()
{
    const std::vector<Visit> visits = {pegs(0, 20, 20), pegs(10, 24, 23.9), pegs(21, 24, 30),
                                       pegs(22, 25, 30)};
    const auto found = worsened(visits, 12);
    QCOMPARE(found.size(), size_t(1));
    QCOMPARE(found[0].side, Side::Right);
    QCOMPARE(found[0].reference.visit.text, u"w0"_s);
    QCOMPARE(found[0].seen.visit.text, u"w10"_s);
    QCOMPARE(found[0].confirmed.visit.text, u"w22"_s);
    QVERIFY(std::abs(found[0].percent - 25) < 1e-9);
    QVERIFY(worsened(visits, 24).empty());
    // A visit in between that is not 20 % longer starts anew.
    QVERIFY(worsened({visits[0], visits[1], pegs(15, 23, 20), visits[3]}, 12).empty());
    // What could not be done has no number to be held against.
    const auto later = worsened({pegs(0, {}, 20), pegs(1, 20, 20), pegs(11, 25, 20), pegs(24, 25, 20)}, 12);
    QCOMPARE(later.size(), size_t(1));
    QCOMPARE(later[0].seen.visit.text, u"w11"_s);
}

void TestEvents::theCompositeIsForMultipleSclerosisAndSwitchedOn()
{
    const std::vector<Visit> visits = {pegs(0, 20, 20), pegs(1, 30, 30), pegs(20, 30, 30)};
    QCOMPARE(worsened(visits, 12).size(), size_t(2));
    QVERIFY(worsened(visits, {}).empty());
    QVERIFY(worsened(visits, 12, u"stroke"_s).empty());
    catalogue::Catalogue book = examples::catalogue();
    std::erase_if(book.measures, [](const catalogue::Measure& measure) { return measure.id == peg; });
    const records::Patient who = patient();
    QVERIFY(judging::compositeWorsenings({visits, who, book, {8, 12}}).empty());
}

HOUSE_TEST(TestEvents)

} // namespace test_events

#include "test_events.moc"
