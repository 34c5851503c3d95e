#include "core/records/history.h"

#include "tests/support/examples.h"
#include "tests/support/test_support.h"

using namespace Qt::StringLiterals;

namespace test_history
{

using examples::finding;
using examples::visit;
using records::history;
using records::Side;
using values::Quantity;
using values::Unit;

const QString speed = u"gait-speed-comfortable"_s;
const QString walkTime = u"ten-metre-walk-time-comfortable"_s;
const QDate march(2026, 3, 12);
const QDate june(2026, 6, 12);

const catalogue::Catalogue& book()
{
    static const catalogue::Catalogue made = examples::catalogue();
    return made;
}

records::Finding walk(std::vector<double> times)
{
    double sum = 0;
    for (const double time : times)
        sum += time;
    records::Finding walk =
        finding(walkTime, Quantity{sum / static_cast<double>(times.size()), Unit::Second});
    walk.trials = std::move(times);
    return walk;
}

double metresPerSecond(const records::Occasion& occasion)
{
    return values::number(occasion.finding.value).value_or(-1);
}

class TestHistory : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void occasionsComeOldestFirst();
    void aTestTheCatalogueDoesNotKnowHasNoHistory();
    void aTestsOwnConditionsLieOverTheVisits();
    void speedFollowsFromTheTimedWalk();
    void speedIsTheMeanOfTheTrialsSpeeds();
    void anEnteredSpeedIsKept();
    void aSpeedNotAskedIsComputedAllTheSame();
    void withoutATimedDistanceTheSpeedIsMissing();
    void aWalkThatCouldNotBeDoneHasNoSpeedEither();
    void aWalkThatWasRefusedSaysNothingOfSpeed();
    void pairsComeInCatalogueOrderRightBeforeLeft();
};

void TestHistory::occasionsComeOldestFirst()
{
    const auto tandem = [](double steps) { return finding(u"tandem-steps"_s, Quantity{steps, Unit::Steps}); };
    const auto occasions = history({visit(u"b"_s, june, {tandem(4)}), visit(u"a"_s, march, {tandem(2)}),
                                    visit(u"c"_s, june, {tandem(5)})},
                                   book(), u"tandem-steps"_s, Side::None);
    QCOMPARE(occasions.size(), 3U);
    QCOMPARE(occasions[0].visit.text, u"a"_s);
    QCOMPARE(occasions[1].visit.text, u"b"_s);
    QCOMPARE(occasions[2].visit.text, u"c"_s);
    QCOMPARE(history({}, book(), u"tandem-steps"_s, Side::None).size(), 0U);
    QCOMPARE(history({visit(u"a"_s, march, {tandem(2)})}, book(), u"unknown"_s, Side::None).size(), 0U);
}

/// A finding of a clinic's own test whose catalogue was left behind.
void TestHistory::aTestTheCatalogueDoesNotKnowHasNoHistory()
{
    const auto met = visit(u"a"_s, march, {finding(u"long-gone"_s, Quantity{2, Unit::Steps})});
    QCOMPARE(history({met}, book(), u"long-gone"_s, Side::None).size(), 0U);
    QVERIFY(records::occasionAt(met, book(), u"long-gone"_s, Side::None));
    QVERIFY(!records::occasionAt(met, book(), u"unknown"_s, Side::None));
}

void TestHistory::aTestsOwnConditionsLieOverTheVisits()
{
    records::Finding tandem = finding(u"tandem-steps"_s, Quantity{2, Unit::Steps});
    tandem.exceptions = {{u"footwear"_s, u"barefoot"_s}, {u"aid"_s, QString()}};
    const auto occasions =
        history({visit(u"a"_s, march, {tandem}, {{u"footwear"_s, u"shoes"_s}, {u"aid"_s, u"stick"_s}})},
                book(), u"tandem-steps"_s, Side::None);
    QCOMPARE(records::recorded(occasions[0].conditions, u"footwear"_s), u"barefoot"_s);
    QCOMPARE(records::recorded(occasions[0].conditions, u"aid"_s), QString());
}

void TestHistory::speedFollowsFromTheTimedWalk()
{
    records::Finding timed = walk({12.5});
    timed.exceptions = {{u"aid"_s, u"stick"_s}};
    const auto occasions =
        history({visit(u"a"_s, march, {timed}, {{u"distance_m"_s, u"10"_s}})}, book(), speed, Side::None);
    QCOMPARE(occasions.size(), 1U);
    QCOMPARE(metresPerSecond(occasions[0]), 0.8); // 10 m / 12.5 s
    QCOMPARE(occasions[0].finding.measure, speed);
    QCOMPARE(occasions[0].computedFrom.english(), u"10 m in 12.50 s"_s);
    QCOMPARE(records::recorded(occasions[0].conditions, u"aid"_s), u"stick"_s);
}

void TestHistory::speedIsTheMeanOfTheTrialsSpeeds()
{
    const auto occasions = history({visit(u"a"_s, march, {walk({10, 5})}, {{u"distance_m"_s, u"6"_s}})},
                                   book(), speed, Side::None);
    QCOMPARE(metresPerSecond(occasions[0]), (0.6 + 1.2) / 2); // not 6 m / 7.5 s = 0.8 m/s
    QCOMPARE(occasions[0].finding.trials, (std::vector<double>{0.6, 1.2}));
    QCOMPARE(occasions[0].computedFrom.english(), u"6 m in 10.00 and 5.00 s, mean of the speeds"_s);
}

void TestHistory::anEnteredSpeedIsKept()
{
    const auto entered = finding(speed, Quantity{0.9, Unit::MetrePerSecond});
    const auto occasions =
        history({visit(u"a"_s, march, {walk({12.5}), entered}, {{u"distance_m"_s, u"10"_s}})}, book(), speed,
                Side::None);
    QCOMPARE(metresPerSecond(occasions[0]), 0.9);
    QCOMPARE(occasions[0].computedFrom.english(), QString());
}

void TestHistory::aSpeedNotAskedIsComputedAllTheSame()
{
    const auto notAsked = finding(speed, values::Missing{});
    const auto occasions =
        history({visit(u"a"_s, march, {walk({12.5}), notAsked}, {{u"distance_m"_s, u"10"_s}})}, book(), speed,
                Side::None);
    QCOMPARE(metresPerSecond(occasions[0]), 0.8);
}

void TestHistory::withoutATimedDistanceTheSpeedIsMissing()
{
    for (const QString& distance : {QString(), u"0"_s, u"-6"_s, u"far"_s}) {
        const std::vector visits = {visit(u"a"_s, march, {walk({12.5})}, {{u"distance_m"_s, distance}})};
        const auto occasions = history(visits, book(), speed, Side::None);
        QCOMPARE(occasions.size(), 1U);
        QCOMPARE(std::get<values::Missing>(occasions[0].finding.value), values::Missing());
        QCOMPARE(occasions[0].computedFrom.english(), u"the timed distance is missing"_s);
        const auto pairs = records::recordedPairs(visits, book());
        QCOMPARE(pairs.size(), 1U); // the walk, and no speed that was never there
        QCOMPARE(pairs[0].first, walkTime);
    }
}

void TestHistory::aWalkThatCouldNotBeDoneHasNoSpeedEither()
{
    const auto occasions =
        history({visit(u"a"_s, march, {finding(walkTime, examples::unable(u"fatigue"_s))})}, book(), speed,
                Side::None);
    QCOMPARE(occasions.size(), 1U);
    QVERIFY(values::isUnable(occasions[0].finding.value));
}

void TestHistory::aWalkThatWasRefusedSaysNothingOfSpeed()
{
    const auto refused = finding(walkTime, values::Missing{values::Absence::Refused, {}});
    QVERIFY(history({visit(u"a"_s, march, {refused})}, book(), speed, Side::None).empty());
}

void TestHistory::pairsComeInCatalogueOrderRightBeforeLeft()
{
    const auto pairs =
        records::recordedPairs({visit(u"a"_s, march,
                                      {walk({12.5}), finding(u"finger-nose"_s, values::Grade{1}, Side::Left),
                                       finding(u"finger-nose"_s, values::Grade{1}, Side::Right)},
                                      {{u"distance_m"_s, u"10"_s}})},
                               book());
    const std::vector<std::pair<QString, Side>> expected = {{u"finger-nose"_s, Side::Right},
                                                            {u"finger-nose"_s, Side::Left},
                                                            {speed, Side::None},
                                                            {walkTime, Side::None}};
    QCOMPARE(pairs, expected);
}

HOUSE_TEST(TestHistory)

} // namespace test_history

#include "test_history.moc"
