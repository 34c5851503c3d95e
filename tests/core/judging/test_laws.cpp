// What must hold for every record, tried on many made at random from a fixed seed.

#include "core/judging/change.h"

#include "core/statistics/reliability.h"
#include "tests/support/examples.h"
#include "tests/support/test_support.h"

#include <algorithm>
#include <cmath>
#include <random>

using namespace Qt::StringLiterals;

namespace test_laws
{

using examples::finding;
using examples::visit;
using judging::Change;
using judging::Verdict;
using records::Visit;
using values::Quantity;
using values::Unit;

const QString speed = u"gait-speed-comfortable"_s;
const records::Conditions unaided = {{u"aid"_s, u"none"_s}, {u"medication"_s, u"on"_s}};
constexpr int cases = 300;

class Chance
{
public:
    explicit Chance(unsigned seed) : m_generator(seed) {}
    int upTo(int most) { return int(m_generator() % unsigned(most + 1)); }
    /// In hundredths, as recorded.
    double speed() { return 0.5 + upTo(100) / 100.0; }
    std::mt19937& generator() { return m_generator; }

private:
    std::mt19937 m_generator;
};

std::vector<Visit> randomVisits(Chance& chance)
{
    std::vector<Visit> visits;
    QDate day(2025, 1, 6);
    const int count = 2 + chance.upTo(8);
    for (int i = 0; i < count; ++i) {
        day = day.addDays(1 + chance.upTo(60));
        visits.push_back(visit(u"v%1"_s.arg(i), day,
                               {finding(speed, Quantity{chance.speed(), Unit::MetrePerSecond})}, unaided));
    }
    return visits;
}

Change latest(const std::vector<Visit>& visits, const catalogue::Catalogue& book)
{
    return judging::latestChanges(visits, examples::patient(u"parkinson"_s), book).front();
}

/// What is told of a change, without the ids of visits.
QStringList told(const Change& change)
{
    QStringList words;
    for (const auto& held :
         {change.previous, change.baseline, change.best, change.lastConfirmed, change.firstTwo}) {
        words +=
            held
                ? u"%1 %2 %3 %4 %5"_s.arg(held->reference.day.toString(Qt::ISODate), code(held->verdict),
                                          code(held->strength), QString::number(held->z.value_or(99), 'f', 9),
                                          QString::number(held->raised ? held->raised->falseFlagRate : 0))
                : u"none"_s;
    }
    words += QString::number(change.course.run.size());
    words += QString::number(change.course.confirmations.size());
    if (change.course.trend && change.course.trend->reversal)
        words += u"%1 %2"_s.arg(code(change.course.trend->reversal->direction))
                     .arg(change.course.trend->reversal->z);
    if (const auto& trend = change.course.trend)
        words += u"%1 %2 %3"_s.arg(trend->n).arg(*trend->p).arg(trend->direction ? code(*trend->direction)
                                                                                 : u"-"_s);
    return words;
}

class TestLaws : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void moreReliabilityGivesASmallerLimit();
    void exchangingTheVisitsMirrorsTheVerdict();
    void aVisitThatIsNotComparableChangesNothing();
    void anotherUnitChangesNothing();
    void theOrderOfTheVisitsChangesNothing();
    void aLaterVisitChangesNothingThatWasSaid();
    void mirroredValuesExchangeBetterAndWorse();
    void theNoiseOfFractionsDecidesNothing();
};

void TestLaws::moreReliabilityGivesASmallerLimit()
{
    Chance chance(1);
    for (int i = 0; i < cases; ++i) {
        const double deviation = 0.1 + chance.upTo(100);
        const double lower = chance.upTo(98) / 100.0;
        const double higher = lower + 0.01 * (1 + chance.upTo(int(99 - lower * 100)));
        const auto limit = [&](double reliability) {
            return *statistics::minimalDetectableChange(
                *statistics::standardErrorOfMeasurement(deviation, std::min(reliability, 1.0)), 0.95);
        };
        QVERIFY(limit(higher) < limit(lower));
    }
}

void TestLaws::exchangingTheVisitsMirrorsTheVerdict()
{
    Chance chance(2);
    const catalogue::Catalogue book = examples::catalogue();
    const std::map<Verdict, Verdict> mirror = {{Verdict::Better, Verdict::Worse},
                                               {Verdict::Worse, Verdict::Better},
                                               {Verdict::WithinError, Verdict::WithinError}};
    for (int i = 0; i < cases; ++i) {
        std::vector<Visit> visits = randomVisits(chance);
        visits.resize(2);
        const auto forth = *latest(visits, book).baseline;
        std::swap(visits[0].findings, visits[1].findings);
        const auto back = *latest(visits, book).baseline;
        QCOMPARE(back.verdict, mirror.at(forth.verdict));
        QVERIFY(std::abs(*back.z + *forth.z) < 1e-12);
    }
}

void TestLaws::aVisitThatIsNotComparableChangesNothing()
{
    Chance chance(3);
    const catalogue::Catalogue book = examples::catalogue();
    for (int i = 0; i < cases; ++i) {
        std::vector<Visit> visits = randomVisits(chance);
        const QStringList before = told(latest(visits, book));
        const auto place = chance.upTo(int(visits.size()) - 2);
        Visit other = visit(u"other"_s, visits[size_t(place)].day.addDays(chance.upTo(1)),
                            {finding(speed, Quantity{chance.speed(), Unit::MetrePerSecond})},
                            {{u"aid"_s, u"stick"_s}, {u"medication"_s, u"on"_s}});
        visits.insert(visits.begin() + place, other);
        QCOMPARE(told(latest(visits, book)), before);
    }
}

void TestLaws::anotherUnitChangesNothing()
{
    Chance chance(4);
    const catalogue::Catalogue metres = examples::catalogue();
    catalogue::Catalogue centimetres = metres;
    const auto measure = std::ranges::find(centimetres.measures, speed, &catalogue::Measure::id);
    measure->unit = Unit::Centimetre;
    measure->highest = *measure->highest * 100;
    measure->step = *measure->step * 100;
    for (catalogue::Threshold& row : centimetres.thresholds) {
        if (row.measure == speed) {
            row.improvement *= 100;
            row.decline *= 100;
        }
    }
    for (int i = 0; i < cases; ++i) {
        std::vector<Visit> visits = randomVisits(chance);
        const QStringList before = told(latest(visits, metres));
        for (Visit& each : visits)
            each.findings[0].value =
                Quantity{std::round(*values::number(each.findings[0].value) * 1000) / 10, Unit::Centimetre};
        QCOMPARE(told(latest(visits, centimetres)), before);
    }
}

void TestLaws::theOrderOfTheVisitsChangesNothing()
{
    Chance chance(5);
    const catalogue::Catalogue book = examples::catalogue();
    for (int i = 0; i < cases; ++i) {
        std::vector<Visit> visits = randomVisits(chance);
        const QStringList before = told(latest(visits, book));
        std::shuffle(visits.begin(), visits.end(), chance.generator());
        QCOMPARE(told(latest(visits, book)), before);
    }
}

void TestLaws::theNoiseOfFractionsDecidesNothing()
{
    const catalogue::Catalogue book = [] {
        catalogue::Catalogue made = examples::catalogue();
        made.thresholds.front().improvement = made.thresholds.front().decline = 0.2;
        return made;
    }();
    const auto verdict = [&](double before, double after) {
        return latest({visit(u"a"_s, {2026, 1, 1}, {finding(speed, Quantity{before, Unit::MetrePerSecond})},
                             unaided),
                       visit(u"b"_s, {2026, 2, 1}, {finding(speed, Quantity{after, Unit::MetrePerSecond})},
                             unaided)},
                      book)
            .baseline->verdict;
    };
    QCOMPARE(verdict(0.1, 0.3), Verdict::WithinError); // 0.3 − 0.1 is not 0.2 in binary
    QCOMPARE(verdict(0.3, 0.1), Verdict::WithinError);
    QCOMPARE(verdict(0.1, 0.31), Verdict::Better);
    for (int hundredth = 0; hundredth <= 200; ++hundredth)
        QCOMPARE(verdict(hundredth / 100.0, (hundredth + 20) / 100.0), Verdict::WithinError);
}

void TestLaws::aLaterVisitChangesNothingThatWasSaid()
{
    Chance chance(20261130);
    const catalogue::Catalogue book = examples::catalogue();
    const records::Patient patient = examples::patient(u"parkinson"_s);
    for (int made = 0; made < cases; ++made) {
        const std::vector<Visit> visits = randomVisits(chance);
        const size_t place = size_t(chance.upTo(int(visits.size()) - 1));
        const std::vector<Visit> then(visits.begin(), visits.begin() + std::ptrdiff_t(place) + 1);
        const auto said = judging::changesAt(visits[place].id, {}, visits, patient, book).front();
        QCOMPARE(told(said), told(judging::changesAt(visits[place].id, {}, then, patient, book).front()));
    }
}

std::optional<Verdict> opposite(std::optional<Verdict> verdict)
{
    if (verdict == Verdict::Better)
        return Verdict::Worse;
    return verdict == Verdict::Worse ? std::optional(Verdict::Better) : verdict;
}

/// Where the threshold is the same at every level.
void TestLaws::mirroredValuesExchangeBetterAndWorse()
{
    Chance chance(20261201);
    const catalogue::Catalogue book = examples::catalogue();
    int reversals = 0;
    for (int made = 0; made < cases; ++made) {
        const std::vector<Visit> visits = randomVisits(chance);
        std::vector<Visit> mirrored = visits;
        for (Visit& each : mirrored) {
            auto& speed = std::get<Quantity>(each.findings.front().value);
            speed.number = 2 - speed.number;
        }
        const Change one = latest(visits, book);
        const Change other = latest(mirrored, book);
        QCOMPARE(std::optional(other.baseline->verdict), opposite(one.baseline->verdict));
        QCOMPARE(other.baseline->strength, one.baseline->strength);
        QCOMPARE(std::optional(other.previous->verdict), opposite(one.previous->verdict));
        if (!one.course.trend)
            continue;
        QCOMPARE(other.course.trend->direction, opposite(one.course.trend->direction));
        QCOMPARE(other.course.trend->reversal.has_value(), one.course.trend->reversal.has_value());
        if (!one.course.trend->reversal)
            continue;
        ++reversals;
        QCOMPARE(std::optional(other.course.trend->reversal->direction),
                 opposite(one.course.trend->reversal->direction));
        QCOMPARE(other.course.trend->reversal->strength, one.course.trend->reversal->strength);
    }
    QVERIFY(reversals > 10);
}

HOUSE_TEST(TestLaws)

} // namespace test_laws

#include "test_laws.moc"
