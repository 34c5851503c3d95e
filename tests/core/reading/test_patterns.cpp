#include "core/catalogue/reader.h"
#include "core/reading/patterns.h"
#include "core/records/history.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <random>
#include <set>

using namespace Qt::StringLiterals;

namespace test_patterns
{

using examples::finding;
using reading::Bearing;
using reading::PatternReading;
using reading::Place;
using records::Finding;
using records::Side;
using records::Visit;
using values::Choice;
using values::Grade;
using values::Quantity;
using values::Unit;

const catalogue::Catalogue& shipped()
{
    static const auto read = catalogue::readCatalogue(u":/catalogue"_s);
    return *read;
}

Visit seen(std::vector<Finding> findings)
{
    return examples::visit(u"a"_s, QDate(2026, 3, 4), std::move(findings), {});
}

Finding grade(const QString& measure, int step, Side side = Side::None, const QStringList& signs = {})
{
    Finding made = finding(measure, Grade{step}, side);
    made.signs = signs;
    return made;
}

Finding word(const QString& measure, const QString& key, Side side = Side::None,
             const QStringList& signs = {})
{
    Finding made = finding(measure, Choice{key}, side);
    made.signs = signs;
    return made;
}

std::vector<Finding> both(const Finding& right)
{
    Finding left = right;
    left.side = Side::Left;
    Finding made = right;
    made.side = Side::Right;
    return {made, left};
}

template <class... Lists>
std::vector<Finding> all(const Lists&... lists)
{
    std::vector<Finding> made;
    (made.insert(made.end(), lists.begin(), lists.end()), ...);
    return made;
}

PatternReading readingOf(const QString& pattern, const Visit& visit)
{
    for (const PatternReading& each : reading::readings(visit, shipped())) {
        if (each.pattern == pattern)
            return each;
    }
    return {};
}

/// "finger-nose/right", in order and each once.
QStringList placesOf(const std::vector<Bearing>& bearings)
{
    std::set<QString> names;
    for (const Bearing& bearing : bearings) {
        for (const Place& place : bearing.places)
            names.insert(place.side == Side::None ? place.measure
                                                  : u"%1/%2"_s.arg(place.measure, records::code(place.side)));
    }
    return {names.begin(), names.end()};
}

/// A finding a person might enter of a test, from a seeded source.
Finding anyOf(const catalogue::Measure& measure, Side side, std::mt19937& source)
{
    Finding made = finding(measure.id, values::Missing{values::Absence::Unable, {}}, side);
    const auto upTo = [&](size_t most) { return std::uniform_int_distribution<size_t>(0, most)(source); };
    if (upTo(9) == 0)
        return made;
    if (measure.kind == catalogue::Kind::Choice)
        made.value = Choice{measure.options[upTo(measure.options.size() - 1)].key};
    else if (measure.kind == catalogue::Kind::Grade)
        made.value = Grade{int(*measure.lowest) + int(upTo(size_t(*measure.highest - *measure.lowest)))};
    else
        made.value = Quantity{*measure.lowest + double(upTo(size_t(*measure.highest - *measure.lowest))),
                              measure.unit};
    for (const catalogue::Option& sign : measure.watchFor) {
        if (upTo(2) == 0)
            made.signs += sign.key;
    }
    return made;
}

std::vector<Place> placesLookedAt()
{
    std::set<Place> places;
    for (const catalogue::Pattern& pattern : shipped().patterns) {
        QStringList measures = pattern.needs;
        for (const auto* rules : {&pattern.supports, &pattern.contradicts}) {
            for (const catalogue::PatternRule& rule : *rules) {
                for (const catalogue::Look& look : rule.looks)
                    measures += look.measure;
            }
        }
        for (const QString& id : measures) {
            for (const Side side : records::sidesOf(*shipped().measure(id)))
                places.insert({id, side});
        }
    }
    return {places.begin(), places.end()};
}

Visit anyVisit(std::mt19937& source, int percent)
{
    std::vector<Finding> findings;
    for (const Place& place : placesLookedAt()) {
        if (std::uniform_int_distribution<int>(0, 99)(source) < percent)
            findings.push_back(anyOf(*shipped().measure(place.measure), place.side, source));
    }
    return seen(findings);
}

Side other(Side side)
{
    return side == Side::Right ? Side::Left : side == Side::Left ? Side::Right : Side::None;
}

std::set<std::pair<size_t, std::vector<Place>>> setOf(const std::vector<Bearing>& bearings, bool exchanged)
{
    std::set<std::pair<size_t, std::vector<Place>>> made;
    for (Bearing bearing : bearings) {
        for (Place& place : bearing.places)
            place.side = exchanged ? other(place.side) : place.side;
        made.emplace(bearing.rule, bearing.places);
    }
    return made;
}

std::set<Place> setOf(const std::vector<Place>& places, bool exchanged)
{
    std::set<Place> made;
    for (const Place& place : places)
        made.insert({place.measure, exchanged ? other(place.side) : place.side});
    return made;
}

bool holdsAll(const std::vector<Bearing>& more, const std::vector<Bearing>& fewer)
{
    return std::ranges::all_of(
        fewer, [&](const Bearing& each) { return std::ranges::find(more, each) != more.end(); });
}

/// What is read of patterns, against sentences of textbooks and against laws.
class TestPatterns : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void eachPatternReadsItsTextbookExample_data();
    void eachPatternReadsItsTextbookExample();
    void withoutANeededTestNothingElseIsSaid();
    void triedAndNotAbleIsNotTested();
    void anUntestedFindingNeverTakesSupportAway();
    void exchangingSidesExchangesSides();
    void theOrderIsThatOfTheCatalogue();
};

void TestPatterns::eachPatternReadsItsTextbookExample_data()
{
    QTest::addColumn<QString>("pattern");
    QTest::addColumn<std::vector<Finding>>("findings");
    QTest::addColumn<QStringList>("supports");
    QTest::addColumn<QStringList>("contradicts");
    const QStringList clumsy = {u"accuracy (dysmetria: over- or undershoot)"_s, u"decomposition"_s};
    const std::vector<Finding> steady = {word(u"romberg-sign"_s, u"negative"_s)};

    // Signs of a cerebellar hemisphere are on the side of the lesion: dysmetria, dysdiadochokinesia,
    // decomposition (Bodranghien et al. 2016, table of signs; from the trade's notes).
    QTest::newRow("cerebellar, right hemisphere")
        << u"cerebellar-limbs"_s
        << all(std::vector{grade(u"finger-nose"_s, 2, Side::Right, clumsy),
                           grade(u"finger-nose"_s, 0, Side::Left),
                           grade(u"alternating-hand-movement"_s, 2, Side::Right,
                                 {u"irregular breakdown (dysdiadochokinesia)"_s}),
                           grade(u"alternating-hand-movement"_s, 0, Side::Left),
                           grade(u"heel-shin"_s, 1, Side::Right, {u"sideways slip"_s}),
                           grade(u"heel-shin"_s, 0, Side::Left)})
        << QStringList{u"alternating-hand-movement/right"_s, u"finger-nose/right"_s, u"heel-shin/right"_s}
        << QStringList{u"alternating-hand-movement/left"_s, u"finger-nose/left"_s, u"heel-shin/left"_s};
    // Vermis: stance and gait worse than limbs, wide base, tandem fails; unsteady with open eyes is no
    // positive Romberg (Bodranghien 2016; McGee 2018).
    QTest::newRow("cerebellar, vermis")
        << u"cerebellar-trunk"_s
        << std::vector{word(u"romberg-sign"_s, u"unsteady-eyes-open"_s),
                       word(u"gait-stance-width"_s, u"wide"_s),
                       finding(u"tandem-steps"_s, Quantity{3, Unit::Steps})}
        << QStringList{u"gait-stance-width"_s, u"romberg-sign"_s, u"tandem-steps"_s} << QStringList{};
    // A positive Romberg sign: steady with open eyes, lost with closed ones, of a loss of position sense;
    // with a high-stepping gait (McGee 2018).
    QTest::newRow("loss of position sense")
        << u"proprioceptive"_s
        << all(std::vector{word(u"romberg-sign"_s, u"positive"_s)},
               both(word(u"gait-step-height"_s, u"high"_s)))
        << QStringList{u"gait-step-height/left"_s, u"gait-step-height/right"_s, u"romberg-sign"_s}
        << QStringList{};
    // Acute loss of one labyrinth: nystagmus in one direction, veering to the weak side, worse with closed
    // eyes (Jahn et al. 2010, table 2). Vertical nystagmus would point elsewhere (NICE NG127).
    QTest::newRow("vestibular") << u"vestibular"_s
                                << std::vector{word(u"nystagmus"_s, u"horizontal-one-direction"_s),
                                               word(u"romberg-sign"_s, u"positive"_s),
                                               word(u"gait-trunk"_s, u"leans-left"_s)}
                                << QStringList{u"gait-trunk"_s, u"nystagmus"_s, u"romberg-sign"_s}
                                << QStringList{};
    QTest::newRow("vertical nystagmus speaks against it")
        << u"vestibular"_s
        << std::vector{word(u"nystagmus"_s, u"upbeat-or-downbeat"_s), word(u"romberg-sign"_s, u"positive"_s)}
        << QStringList{u"romberg-sign"_s} << QStringList{u"nystagmus"_s};
    // Parkinsonian gait: small steps, reduced arm swing of one side, many steps to turn, base normal; taps
    // that grow smaller (Jahn 2010, table 2; decrement: common practice, no source).
    QTest::newRow("extrapyramidal") << u"extrapyramidal"_s
                                    << all(std::vector{
                                           grade(u"finger-tapping"_s, 2, Side::Right, {u"decrement"_s}),
                                           grade(u"finger-tapping"_s, 0, Side::Left),
                                           word(u"gait-stride-length"_s, u"short"_s),
                                           grade(u"gait-arm-swing"_s, 2, Side::Right),
                                           grade(u"gait-arm-swing"_s, 0, Side::Left),
                                           finding(u"turn-180-steps"_s, Quantity{8, Unit::Steps})})
                                    << QStringList{u"finger-tapping/right"_s, u"gait-arm-swing/right"_s,
                                                   u"gait-stride-length"_s, u"turn-180-steps"_s}
                                    << QStringList{u"finger-tapping/left"_s, u"gait-arm-swing/left"_s};
    // Pronation and sinking of one arm, a leg that swings out (common practice, no source; Jahn 2010 for the
    // gait).
    QTest::newRow("corticospinal")
        << u"corticospinal"_s
        << std::vector{word(u"pronator-drift"_s, u"pronation-and-sinking"_s, Side::Left),
                       word(u"pronator-drift"_s, u"none"_s, Side::Right),
                       word(u"gait-step-height"_s, u"drags"_s, Side::Left, {u"leg swings out"_s})}
        << QStringList{u"gait-step-height/left"_s, u"pronator-drift/left"_s}
        << QStringList{u"pronator-drift/right"_s};
    // Foot drop: the heels cannot be walked on, the foot is lifted high and slaps (Jahn 2010, table 2).
    QTest::newRow("neuromuscular")
        << u"neuromuscular"_s
        << all(std::vector{grade(u"heel-walking"_s, 3, Side::Right), grade(u"heel-walking"_s, 0, Side::Left),
                           word(u"gait-step-height"_s, u"high"_s, Side::Right, {u"foot slaps"_s})},
               both(grade(u"toe-walking"_s, 0)), steady)
        << QStringList{u"gait-step-height/right"_s, u"heel-walking/right"_s}
        << QStringList{u"heel-walking/left"_s, u"toe-walking/left"_s, u"toe-walking/right"_s};
    // Higher-level gait: start hesitation, short shuffling steps, wide base (Stolze 2000; Jahn 2010).
    QTest::newRow("higher-level gait")
        << u"higher-level-gait"_s
        << all(std::vector{word(u"gait-initiation"_s, u"hesitates"_s),
                           word(u"gait-stance-width"_s, u"wide"_s),
                           word(u"gait-stride-length"_s, u"short"_s)},
               both(word(u"gait-step-height"_s, u"shuffling"_s)))
        << QStringList{u"gait-initiation"_s, u"gait-stance-width"_s, u"gait-step-height/left"_s,
                       u"gait-step-height/right"_s, u"gait-stride-length"_s}
        << QStringList{};
    // Functional: positive signs, as a costly posture without a fall and a change with distraction (Nonnekes
    // 2020).
    QTest::newRow("functional signs")
        << u"functional"_s
        << std::vector{word(u"gait-trunk"_s, u"sways"_s, Side::None,
                            {u"changes when distracted"_s, u"costly posture without a fall"_s}),
                       word(u"romberg-sign"_s, u"unsteady-eyes-open"_s, Side::None,
                            {u"steadier when distracted"_s})}
        << QStringList{u"gait-trunk"_s, u"romberg-sign"_s} << QStringList{};
    QTest::newRow("nothing else found is no functional sign")
        << u"functional"_s
        << std::vector{word(u"gait-trunk"_s, u"normal"_s), word(u"romberg-sign"_s, u"negative"_s)}
        << QStringList{} << QStringList{};
    // Short stance on the painful side (Jahn 2010, table 2).
    QTest::newRow("antalgic") << u"antalgic"_s
                              << std::vector{word(u"gait-stride-length"_s, u"unequal"_s, Side::None,
                                                  {u"short stance on a painful side"_s})}
                              << QStringList{u"gait-stride-length"_s} << QStringList{};
}

void TestPatterns::eachPatternReadsItsTextbookExample()
{
    QFETCH(QString, pattern);
    QFETCH(std::vector<Finding>, findings);
    const PatternReading read = readingOf(pattern, seen(findings));
    QCOMPARE(read.needed, std::vector<Place>());
    QTEST(placesOf(read.supports), "supports");
    QTEST(placesOf(read.contradicts), "contradicts");
    for (const Place& place : read.notTested)
        QVERIFY(std::ranges::none_of(findings, [&](const Finding& each) {
            return each.measure == place.measure && each.side == place.side;
        }));
}

void TestPatterns::withoutANeededTestNothingElseIsSaid()
{
    const PatternReading read = readingOf(
        u"vestibular"_s,
        seen({word(u"nystagmus"_s, u"horizontal-one-direction"_s), word(u"gait-trunk"_s, u"leans-left"_s)}));
    QCOMPARE(read.needed, (std::vector<Place>{{u"romberg-sign"_s, Side::None}}));
    QVERIFY(read.supports.empty() && read.contradicts.empty() && read.notTested.empty());
    // One side alone is not the test.
    QCOMPARE(readingOf(u"corticospinal"_s, seen({word(u"pronator-drift"_s, u"none"_s, Side::Right)})).needed,
             (std::vector<Place>{{u"pronator-drift"_s, Side::Left}}));
}

void TestPatterns::triedAndNotAbleIsNotTested()
{
    const PatternReading read =
        readingOf(u"cerebellar-trunk"_s,
                  seen({word(u"romberg-sign"_s, u"negative"_s), word(u"gait-stance-width"_s, u"wide"_s),
                        finding(u"tandem-steps"_s, values::Missing{values::Absence::Unable, {}})}));
    QCOMPARE(read.needed, (std::vector<Place>{{u"tandem-steps"_s, Side::None}}));
}

void TestPatterns::anUntestedFindingNeverTakesSupportAway()
{
    std::mt19937 source(20260304);
    const std::vector<Place> places = placesLookedAt();
    int told = 0;
    for (int round = 0; round < 400; ++round) {
        const Visit before = anyVisit(source, 60 + round % 40);
        Visit after = before;
        for (const Place& place : places) {
            if (before.finding(place.measure, place.side) == nullptr) {
                after.findings.push_back(anyOf(*shipped().measure(place.measure), place.side, source));
                break;
            }
        }
        const auto was = reading::readings(before, shipped());
        const auto is = reading::readings(after, shipped());
        for (size_t i = 0; i < was.size(); ++i) {
            QVERIFY(holdsAll(is[i].supports, was[i].supports));
            QVERIFY(holdsAll(is[i].contradicts, was[i].contradicts));
            told += int(was[i].supports.size() + was[i].contradicts.size());
        }
    }
    QVERIFY(told > 1000); // the visits were not too bare to show it
}

void TestPatterns::exchangingSidesExchangesSides()
{
    std::mt19937 source(7);
    for (int round = 0; round < 400; ++round) {
        const Visit visit = anyVisit(source, 85);
        Visit mirrored = visit;
        for (Finding& each : mirrored.findings)
            each.side = other(each.side);
        const auto here = reading::readings(visit, shipped());
        const auto there = reading::readings(mirrored, shipped());
        for (size_t i = 0; i < here.size(); ++i) {
            QCOMPARE(setOf(here[i].supports, true), setOf(there[i].supports, false));
            QCOMPARE(setOf(here[i].contradicts, true), setOf(there[i].contradicts, false));
            QCOMPARE(setOf(here[i].notTested, true), setOf(there[i].notTested, false));
            QCOMPARE(setOf(here[i].needed, true), setOf(there[i].needed, false));
        }
    }
}

void TestPatterns::theOrderIsThatOfTheCatalogue()
{
    std::mt19937 source(1);
    const auto read = reading::readings(anyVisit(source, 90), shipped());
    QCOMPARE(read.size(), shipped().patterns.size());
    for (size_t i = 0; i < read.size(); ++i)
        QCOMPARE(read[i].pattern, shipped().patterns[i].id);
}

HOUSE_TEST(TestPatterns)

} // namespace test_patterns

#include "test_patterns.moc"
