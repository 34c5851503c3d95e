#include "core/statistics/crowd.h"
#include "core/statistics/distributions.h"
#include "core/statistics/error_study.h"
#include "core/statistics/multiplicity.h"
#include "core/statistics/quartiles.h"
#include "core/statistics/ranks.h"
#include "core/statistics/scatter.h"
#include "core/statistics/sign_test.h"
#include "core/statistics/tapping.h"
#include "core/statistics/trend.h"
#include "core/statistics/watch.h"
#include "tests/support/reference.h"
#include "tests/support/test_support.h"

#include <random>

using namespace Qt::StringLiterals;

namespace test_outside
{

using namespace statistics;

constexpr int cases = 1000;
constexpr double tolerance = 1e-9;

/// The same cases on every run and machine: the engine's numbers are laid down by the standard, the
/// distributions of <random> are not.
class Dice
{
public:
    double share() { return (double(m_engine()) + 0.5) / 4294967296.0; }
    int whole(int lowest, int highest) { return lowest + int(share() * (highest - lowest + 1)); }
    double normal() { return normalValueAt(share()); }

private:
    std::mt19937 m_engine{20260304};
};

std::vector<double> flat(const Estimate& estimate)
{
    return {estimate.value, estimate.low, estimate.high};
}

void append(std::vector<double>& all, const std::vector<double>& more)
{
    all.insert(all.end(), more.begin(), more.end());
}

std::vector<double> answerOf(const ErrorStudy& study)
{
    std::vector<double> answer;
    for (const Estimate& estimate :
         {study.icc11, study.icc21, study.icc31, study.sem, study.mdc90, study.mdc95})
        append(answer, flat(estimate));
    for (const auto& estimate : {study.bias, study.lowerLimit, study.upperLimit}) {
        if (estimate)
            append(answer, flat(*estimate));
    }
    return answer;
}

Questions repeats()
{
    Dice dice;
    Questions questions;
    for (int made = 0; made < cases; ++made) {
        const int trials = dice.whole(2, 5);
        Repeats rows;
        std::vector<double> numbers = {double(trials)};
        for (int subject = dice.whole(4, 30); subject > 0; --subject) {
            const double level = 10 + 3 * dice.normal();
            auto& row = rows.emplace_back();
            for (int trial = 0; trial < trials; ++trial)
                row.push_back(level + 0.3 * trial + dice.normal());
            append(numbers, row);
        }
        questions.add(u"repeats"_s, numbers, answerOf(*errorStudy(rows)));
    }
    return questions;
}

/// Visits of one measure; `steps` above 0 rounds the values, so that there are ties.
struct Course {
    std::vector<double> times;
    std::vector<double> values;
};

Course course(Dice& dice, bool isRounded)
{
    Course made;
    double time = 0;
    for (int visit = dice.whole(3, 16); visit > 0; --visit) {
        time += 0.05 + dice.share();
        made.times.push_back(time);
        const double value = 20 + time + 3 * dice.normal();
        made.values.push_back(isRounded ? std::round(value) : value);
    }
    return made;
}

Questions trends()
{
    Dice dice;
    Questions questions;
    for (int made = 0; made < cases; ++made) {
        Course visits = course(dice, made % 2 == 1);
        visits.values.back() += 0.5; // never all alike
        std::vector<double> numbers = {double(visits.times.size())};
        append(numbers, visits.times);
        append(numbers, visits.values);
        questions.add(u"trend"_s, numbers,
                      {theilSen(visits.times, visits.values)->value,
                       mannKendall(visits.times, visits.values)->p,
                       rankCorrelation(visits.times, visits.values)});
    }
    return questions;
}

Questions lines()
{
    Dice dice;
    Questions questions;
    for (int made = 0; made < cases; ++made) {
        const Course visits = course(dice, false);
        const double error = 0.1 + dice.share();
        std::vector<double> numbers = {error, double(visits.times.size())};
        append(numbers, visits.times);
        append(numbers, visits.values);
        const auto slope = leastSquares(visits.times, visits.values, error);
        questions.add(u"line"_s, numbers, {slope->value, slope->low, slope->high});
    }
    return questions;
}

Questions quantiles()
{
    Dice dice;
    Questions questions;
    for (int made = 0; made < cases; ++made) {
        const double probability = dice.share();
        const double first = dice.whole(1, 200);
        const double second = dice.whole(1, 200);
        questions.add(u"quantiles"_s, {probability, first, second},
                      {studentQuantile(probability, first), chiSquareQuantile(probability, first),
                       fisherQuantile(probability, first, second), normalValueAt(probability)});
    }
    return questions;
}

/// Of numbers, and of rounded ones as steps.
Questions quartilesOfMany()
{
    Dice dice;
    Questions questions;
    for (int made = 0; made < cases; ++made) {
        std::vector<double> numbers;
        for (int person = dice.whole(1, 40); person > 0; --person)
            numbers.push_back(made % 2 == 0 ? 10 + 3 * dice.normal() : dice.whole(0, 4));
        const Quartiles found = *quartiles(numbers);
        const Quartiles steps = *quartilesOfSteps(numbers);
        questions.add(u"quartiles"_s, numbers,
                      {found.lower, found.median, found.upper, steps.lower, steps.median, steps.upper});
    }
    return questions;
}

/// The p values of a visit: some from nothing but error, some small.
Questions discoveries()
{
    Dice dice;
    Questions questions;
    for (int made = 0; made < cases; ++made) {
        const double rate = made % 2 == 0 ? 0.05 : 0.2;
        std::vector<double> p;
        for (int measure = dice.whole(1, 40); measure > 0; --measure)
            p.push_back(dice.whole(1, 3) == 1 ? std::pow(dice.share(), 6) : dice.share());
        std::vector<double> numbers = {rate};
        append(numbers, p);
        const std::vector<bool> stays = benjaminiHochberg(p, rate);
        questions.add(u"discoveries"_s, numbers, {stays.begin(), stays.end()});
    }
    return questions;
}

/// Visits of uneven spacing, and the plan they are watched by.
Questions bounds()
{
    Dice dice;
    Questions questions;
    for (int made = 0; made < cases; ++made) {
        const Course visits = course(dice, false);
        const Plan plan{dice.whole(firstSlope, 10), 0.01 + 0.1 * dice.share()};
        std::vector<double> numbers = {double(plan.visits), plan.level};
        append(numbers, visits.times);
        std::vector<double> answer;
        for (const auto& bound : trendBounds(visits.times, plan)) {
            if (bound)
                answer.push_back(*bound);
        }
        questions.add(u"bounds"_s, numbers, answer);
    }
    return questions;
}

/// What is watched: the slope and the turn of the whole run in the error drawn toward the own scatter.
Questions watches()
{
    Dice dice;
    Questions questions;
    for (int made = 0; made < cases; ++made) {
        Course visits = course(dice, made % 2 == 1);
        while (visits.times.size() < 4)
            visits = course(dice, false);
        const double error = 0.5 + 3 * dice.share();
        const Watched found = watched(visits.times, visits.values, error, {100, 0.05});
        std::vector<double> numbers = {error, double(visits.times.size())};
        append(numbers, visits.times);
        append(numbers, visits.values);
        questions.add(u"watch"_s, numbers,
                      {found.error, found.trend.back().z, std::abs(found.turn.back().z)});
    }
    return questions;
}

/// What trend and turn flag together of stable people, evenly spaced and with a known error: the level of the
/// plan.
Questions turns()
{
    Questions questions;
    for (const auto& [visits, level, plan] :
         {std::tuple(8, 0.05, 0), {8, 0.05, 1}, {8, 0.10, 2}, {5, 0.10, 0}, {12, 0.02, 0}}) {
        const Plan watched{visits, level};
        std::vector<double> times;
        for (int visit = 0; visit < (plan + 1) * visits; ++visit)
            times.push_back(visit);
        std::vector<double> numbers = {double(visits), double(plan), *Crowd(watched).turnBound(plan)};
        const auto bounds = trendBounds(times, watched);
        for (size_t visit = size_t(plan * visits); visit < bounds.size(); ++visit) {
            if (bounds[visit])
                numbers.push_back(*bounds[visit]);
        }
        questions.add(u"crowd"_s, numbers, {level});
    }
    return questions;
}

Questions scatterLimits()
{
    Dice dice;
    Questions questions;
    for (int made = 0; made < cases; ++made) {
        const int earlier = dice.whole(2, 30);
        const double probability = 0.001 + 0.2 * dice.share();
        const double limit = *scatterLimit(earlier, probability);
        questions.add(u"beyond"_s, {double(earlier), limit}, {probability, degreesOfScatter(earlier)});
    }
    return questions;
}

Questions splits()
{
    Dice dice;
    Questions questions;
    for (int made = 0; made < cases; ++made) {
        const int rises = dice.whole(0, 60);
        const int falls = dice.whole(rises == 0 ? 1 : 0, 60);
        questions.add(u"signs"_s, {double(rises), double(falls)}, {signTest(rises, falls)});
    }
    return questions;
}

/// Runs of taps at a rate, unsteady, slowing and with a halt now and then.
Questions taps()
{
    Dice dice;
    Questions questions;
    for (int made = 0; made < cases; ++made) {
        const int intervals = dice.whole(9, 80);
        const double usual = 0.12 + 0.4 * dice.share();
        const double slowing = 0.02 * dice.share();
        std::vector<double> instants = {0};
        for (int interval = 0; interval < intervals; ++interval) {
            const double halt = dice.share() < 0.05 ? dice.share() : 0;
            instants.push_back(instants.back() +
                               usual * (1 + slowing * interval) * std::exp(0.1 * dice.normal()) + halt);
        }
        const Tapping run = *tapping(instants);
        questions.add(u"taps"_s, instants,
                      {run.perSecond, run.meanInterval, *run.variation, run.longest, *run.slowing});
    }
    return questions;
}

/// The formulas of core/statistics against R and SciPy, on a thousand cases each.
class TestOutside : public HouseTest
{
    Q_OBJECT

private Q_SLOTS:
    void errorStudyAgreesWithR() { askR(repeats()); }
    void trendAgreesWithR() { askR(trends()); }
    void leastSquaresAgreesWithR() { askR(lines()); }
    void quantilesAgreeWithR() { askR(quantiles()); }
    void quartilesAgreeWithR() { askR(quartilesOfMany()); }
    void discoveriesAgreeWithR() { askR(discoveries()); }
    void sequentialBoundsAgreeWithR() { askR(bounds(), 1e-4); }
    void whatIsWatchedAgreesWithR() { askR(watches()); }
    void turnBoundsKeepTheLevelInR() { askR(turns(), 0.06); } // counted among 200,000 people there
    void signTestAgreesWithR() { askR(splits()); }
    void tapsAgreeWithR() { askR(taps()); }
    void scatterLimitsAgreeWithR() { askR(scatterLimits(), 1e-6); }
    void tapsAgreeWithNumPy() { askSciPy(taps()); }
    void trendAgreesWithSciPy() { askSciPy(trends()); }
    void leastSquaresAgreesWithSciPy() { askSciPy(lines()); }
    void quantilesAgreeWithSciPy() { askSciPy(quantiles()); }

private:
    static void askR(const Questions& questions, double within = tolerance)
    {
        compare(questions, answersOf(u"/usr/bin/Rscript"_s, u"reference.R"_s, questions.lines), within);
    }

    static void askSciPy(const Questions& questions)
    {
        compare(questions, answersOf(u"/usr/bin/python3"_s, u"reference.py"_s, questions.lines), tolerance);
    }
};

HOUSE_TEST(TestOutside)

} // namespace test_outside

#include "test_outside.moc"
