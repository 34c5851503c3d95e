#include "core/telling/course_words.h"

#include "core/base/rounding.h"
#include "core/judging/run_trend.h"
#include "core/records/wording.h"
#include "core/statistics/multiplicity.h"
#include "core/telling/terms.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace telling
{

namespace
{

using base::Phrasebook;
using catalogue::Measure;
using statistics::FlagRule;
using statistics::Slope;

/// Whole percent; below 10 and above 99 with one decimal, so that rare is not none and likely not certain.
QString percentWords(double share, const Phrasebook& phrases)
{
    constexpr double certain = 0.999;
    if (share > certain)
        return phrases("more than 99.9 %");
    if (share < 1 - certain)
        return phrases("less than 0.1 %");
    const bool isNearAnEnd = share < 0.0995 || share >= 0.9895;
    return phrases("%1 %").arg(base::fixed(share * 100, isNearAnEnd ? 1 : 0));
}

QString seenOnceWords(const judging::Comparison& held, int days, const Phrasebook& phrases)
{
    const QString interval = daysWords(days, phrases);
    if (!held.since || *held.since == held.now.day)
        return phrases("seen once, confirmed if still so after %1").arg(interval);
    return phrases("seen since %1, confirmed if still so after %2")
        .arg(records::dayInWords(*held.since, phrases), interval);
}

QString presentTrendWords(const judging::Trend& trend, const Phrasebook& phrases)
{
    const bool isBetter = trend.direction == judging::Verdict::Better;
    const QString since = records::dayInWords(trend.since, phrases);
    QString words;
    if (trend.strength == judging::Strength::Sustained)
        words = isBetter
                    ? phrases.counted(
                          "sustained improvement: the trend of %1 comparable visit, there since %2",
                          "sustained improvement: the trend of %1 comparable visits, there since %2", trend.n)
                    : phrases.counted("sustained decline: the trend of %1 comparable visit, there since %2",
                                      "sustained decline: the trend of %1 comparable visits, there since %2",
                                      trend.n);
    else
        words = isBetter
                    ? phrases.counted(
                          "improvement in the trend of %1 comparable visit, seen since %2, sustained if "
                          "the next visits agree",
                          "improvement in the trend of %1 comparable visits, seen since %2, sustained if "
                          "the next visits agree",
                          trend.n)
                    : phrases.counted(
                          "decline in the trend of %1 comparable visit, seen since %2, sustained if the "
                          "next visits agree",
                          "decline in the trend of %1 comparable visits, seen since %2, sustained if the "
                          "next visits agree",
                          trend.n);
    return words.arg(QString::number(trend.n), since);
}

/// A flag that fell is history; what was lost of it is said with it.
QString formerTrendWords(const judging::Change& change, const Measure& measure, const Phrasebook& phrases)
{
    const judging::FormerTrend& former = *change.course.trend->former;
    const QString until = records::dayInWords(former.until, phrases);
    if (former.direction == judging::Verdict::Worse)
        return phrases("worse in the trend until %1").arg(until);
    const auto& reversal = change.course.trend->reversal;
    const bool isLossTold = reversal && reversal->direction == judging::Verdict::Worse;
    if (isLossTold || !change.best || change.best->verdict != judging::Verdict::Worse)
        return phrases("better in the trend until %1").arg(until);
    return phrases(
               "better in the trend until %1, since then worse: %2 from the best (%3 on %4), beyond error")
        .arg(until, signedAmount(*change.best->difference, measure, phrases),
             records::written(change.best->reference.finding.value, measure, phrases),
             records::dayInWords(change.best->reference.day, phrases));
}

/// The turn from the best or the worst two visits in a row.
QString reversalWords(const judging::Reversal& reversal, const Measure& measure, const Phrasebook& phrases)
{
    const auto mean = [&](double number) { return records::written(number, measure); };
    const QString words =
        reversal.direction == judging::Verdict::Worse
            ? phrases("reversal for the worse: mean of the last two visits %1, of %2 and %3 "
                      "it was %4")
            : phrases("reversal for the better: mean of the last two visits %1, of %2 and "
                      "%3 it was %4");
    const QString told = words.arg(mean(reversal.now), records::dayInWords(reversal.from, phrases),
                                   records::dayInWords(reversal.until, phrases), mean(reversal.before));
    const QString since = records::dayInWords(reversal.since, phrases);
    return reversal.strength == judging::Strength::Sustained
               ? phrases("%1; sustained, there since %2").arg(told, since)
               : phrases("%1; seen since %2, sustained if the next visits agree").arg(told, since);
}

/// How often the change of the comparison itself was seen.
QString ownStrengthWords(const judging::Comparison& comparison, const judging::Course& course,
                         const Phrasebook& phrases)
{
    switch (comparison.strength) {
    case judging::Strength::None:
        break;
    case judging::Strength::SeenOnce:
        return seenOnceWords(comparison, course.confirmAfterDays, phrases);
    case judging::Strength::Confirmed:
        return phrases("confirmed: there since %1, at least %2")
            .arg(records::dayInWords(comparison.since.value_or(comparison.now.day), phrases),
                 daysWords(course.confirmAfterDays, phrases));
    case judging::Strength::TrendSeenOnce:
    case judging::Strength::Sustained:
        return presentTrendWords(*course.trend, phrases);
    }
    return {};
}

QString ruleWords(FlagRule rule, const Phrasebook& phrases)
{
    switch (rule) {
    case FlagRule::FirstVisit:
        return phrases("each visit against the first");
    case FlagRule::PreviousVisit:
        return phrases("each visit against the one before");
    case FlagRule::BestVisit:
        return phrases("each visit against the best before");
    case FlagRule::Confirmed:
        return phrases("against the first visit, and the next one agrees");
    case FlagRule::Trend:
        return phrases("the trend, looked at anew at each visit");
    case FlagRule::Turn:
        return phrases("a reversal, looked for anew at each visit");
    case FlagRule::Order:
        return phrases("the order of the results, looked at anew at each visit");
    case FlagRule::OwnScatter:
        break;
    }
    return phrases("each visit in the patient's own scatter");
}

QString slopeWords(double perYear, const Measure& measure, const Phrasebook& phrases)
{
    return phrases("%1 per year").arg(signedAmount(perYear, measure, phrases, 1));
}

QString intervalWords(const Slope& slope, const Measure& measure, const Phrasebook& phrases)
{
    return phrases("95 % interval %1 to %2")
        .arg(signedAmount(slope.low, measure, phrases, 1), signedAmount(slope.high, measure, phrases, 1));
}

/// An error on the measure's scale, or in percent where it is one of the logarithm.
QString errorAmount(double error, const judging::RunError& of, const Measure& measure,
                    const Phrasebook& phrases)
{
    constexpr double percent = 100;
    return of.isOfLogarithm ? phrases("%1 %").arg(base::fixed(std::expm1(error) * percent, 1))
                            : amount(error, measure, phrases, 1);
}

/// Both numbers and what was made of them.
QString errorWords(const judging::RunError& error, const Measure& measure, const Phrasebook& phrases)
{
    const QString published = errorAmount(error.published, error, measure, phrases);
    if (!error.own)
        return phrases("Judged by the published standard error of one value, %1.").arg(published);
    return phrases("Published standard error of one value %1; this patient's own scatter %2 (%3 degrees of "
                   "freedom beside the %4 the published one is given); judged by %5.")
        .arg(published, errorAmount(error.own->deviation, error, measure, phrases),
             base::fixed(error.own->degrees, 1), QString::number(statistics::publishedDegrees),
             errorAmount(error.used, error, measure, phrases));
}

QString pWords(double p)
{
    constexpr int decimals = 4;
    return base::fixed(p, decimals);
}

QString testWords(const judging::Trend& trend, const Phrasebook& phrases)
{
    constexpr double smallestShown = 0.001;
    const QString p =
        *trend.p < smallestShown ? phrases("p below 0.001") : phrases("p %1").arg(base::fixed(*trend.p, 3));
    if (trend.mayBeSignificant)
        return phrases("Mann–Kendall %1").arg(p);
    return phrases("Mann–Kendall %1; so few visits cannot reach 0.05 whatever they show").arg(p);
}

QString visitsWords(const judging::Trend& trend, const Phrasebook& phrases)
{
    return (trend.isProvisional ? phrases.counted("provisional: %1 visit", "provisional: %1 visits", trend.n)
                                : phrases.counted("%1 visit", "%1 visits", trend.n))
        .arg(trend.n);
}

QString agreementWords(const judging::Course& course, const Measure& measure, const Phrasebook& phrases)
{
    std::vector<double> numbers;
    for (const judging::RunPoint& point : judging::numbersByDay(course.run))
        numbers.push_back(*point.number);
    qint64 rising = 0;
    qint64 falling = 0;
    for (auto later = numbers.begin(); later != numbers.end(); ++later) {
        rising += std::count_if(numbers.begin(), later, [&](double earlier) { return *later > earlier; });
        falling += std::count_if(numbers.begin(), later, [&](double earlier) { return *later < earlier; });
    }
    const auto pairs = qint64(numbers.size() * (numbers.size() - 1) / 2);
    return phrases("Of %1 pairs of visits %2 rise and %3 fall (%4); a grade has no slope; %5.")
        .arg(pairs)
        .arg(rising)
        .arg(falling)
        .arg(records::directionWords(measure, phrases), visitsWords(*course.trend, phrases));
}

} // namespace

QString strengthWords(const judging::Comparison& comparison, const judging::Change& change,
                      const catalogue::Catalogue& catalogue, const Phrasebook& phrases)
{
    using judging::Verdict;
    const judging::Course& course = change.course;
    const Measure* measure = catalogue.measure(comparison.measure);
    std::vector<std::pair<Verdict, QString>> all = {
        {comparison.verdict, ownStrengthWords(comparison, course, phrases)}};
    const bool isOfRun = !course.run.empty() && comparison.reference.visit == course.run.front().visit;
    if (isOfRun && course.trend && measure != nullptr) {
        const bool isOther = course.trend->direction != judging::directionOf(comparison.verdict);
        if (course.trend->direction && isOther)
            all.emplace_back(*course.trend->direction, presentTrendWords(*course.trend, phrases));
        const auto& reversal = course.trend->reversal;
        if (reversal && reversal->direction != course.trend->direction)
            all.emplace_back(reversal->direction, reversalWords(*reversal, *measure, phrases));
        if (course.trend->former)
            all.emplace_back(Verdict::NoThreshold,
                             formerTrendWords(change, *measure, phrases)); // history last
    }
    std::ranges::stable_sort(all, {}, [](const auto& one) {
        return one.first == Verdict::NoThreshold ? 2 : one.first == Verdict::Worse ? 0 : 1;
    });
    QStringList words;
    for (const auto& one : all) {
        if (!one.second.isEmpty())
            words += one.second;
    }
    return phrases.joined("%1; %2", words);
}

QString raisedWords(const judging::Raised& raised, const records::Judging& judging, const Phrasebook& phrases)
{
    const QString share = percentWords(raised.falseFlagRate, phrases);
    const bool isOfPairs = raised.rule == FlagRule::FirstVisit || raised.rule == FlagRule::PreviousVisit ||
                           raised.rule == FlagRule::BestVisit || raised.rule == FlagRule::Confirmed;
    if (isOfPairs)
        return phrases
            .counted("By this rule (%1) %2 of stable people would be flagged at least once within %3 visit.",
                     "By this rule (%1) %2 of stable people would be flagged at least once within %3 visits.",
                     raised.visits)
            .arg(ruleWords(raised.rule, phrases), share, QString::number(raised.visits));
    const statistics::Plan plan = judging::planOf(judging);
    const bool isTogether = raised.rule == FlagRule::Trend || raised.rule == FlagRule::Turn;
    return (isTogether
                ? phrases(
                      "By this rule (%1) at most %2 of stable people would be flagged up to visit %3 of a "
                      "plan of %4 visits; trend and reversal together at most %5 a plan.")
                : phrases(
                      "By this rule (%1) at most %2 of stable people would be flagged up to visit %3 of a "
                      "plan of %4 visits, and at most %5 a plan."))
        .arg(ruleWords(raised.rule, phrases), share, QString::number((raised.visits - 1) % plan.visits + 1),
             QString::number(plan.visits), percentWords(plan.level, phrases));
}

QString familyWords(int courses, const records::Judging& judging, const Phrasebook& phrases)
{
    if (courses < 2)
        return {};
    const statistics::Plan plan = judging::planOf(judging);
    return phrases(
               "Among %1 courses watched, up to %2 of people in whom nothing changes would have at least one "
               "flag (trend, reversal or own scatter) within a plan of %3 visits.")
        .arg(QString::number(courses),
             percentWords(statistics::atLeastOneFalse(courses, plan.level), phrases),
             QString::number(plan.visits));
}

QString weightWords(const judging::Comparison& comparison, const catalogue::Catalogue& catalogue,
                    const Phrasebook& phrases)
{
    const Measure* measure = catalogue.measure(comparison.measure);
    if (measure == nullptr || !comparison.z || !comparison.probabilityBeyondZero || *comparison.z == 0)
        return {};
    const QString size = base::fixed(std::abs(*comparison.z), 1);
    const QString beyondZero = percentWords(*comparison.probabilityBeyondZero, phrases);
    if (!comparison.important || !comparison.probabilityBeyondImportant)
        return phrases("The difference is %1 standard errors of a difference (z). If the error is normal and "
                       "nothing else is known, the true change goes this way with a probability of %2.")
            .arg(size, beyondZero);
    const double important = comparison.important->limitFor(*comparison.difference, measure->better);
    return phrases("The difference is %1 standard errors of a difference (z). If the error is normal and "
                   "nothing else is known, the true change goes this way with a probability of %2, and by "
                   "more than the important %3 with %4.")
        .arg(size, beyondZero, amount(important, *measure, phrases),
             percentWords(*comparison.probabilityBeyondImportant, phrases));
}

bool isTold(const Slope& slope, const Measure& measure)
{
    if (!std::isfinite(slope.low) || !std::isfinite(slope.high))
        return false;
    const double range = measure.highest ? *measure.highest - measure.lowest.value_or(0)
                                         : std::numeric_limits<double>::infinity();
    return std::max(std::abs(slope.low), std::abs(slope.high)) <= range;
}

QStringList trendWords(const judging::Course& course, const std::optional<Slope>& robust,
                       const Measure& measure, const Phrasebook& phrases)
{
    if (!course.trend)
        return {};
    const judging::Trend& trend = *course.trend;
    QStringList lines;
    if (trend.orderP && trend.pDue)
        lines += phrases("The order of the results has p %1 by permutation; at this visit less than %2 is "
                         "needed.")
                     .arg(pWords(*trend.orderP), pWords(*trend.pDue));
    if (!robust || !trend.p)
        return QStringList{agreementWords(course, measure, phrases)} + lines;
    if (trend.z && trend.bound)
        lines += phrases("The trend is %1 standard errors; at this visit more than %2 are needed.")
                     .arg(base::fixed(std::abs(*trend.z), 2), base::fixed(*trend.bound, 2));
    if (trend.error)
        lines += errorWords(*trend.error, measure, phrases);
    if (trend.efficient && isTold(*trend.efficient, measure))
        lines += phrases("Slope that is judged, least squares with this error: %1 (%2).")
                     .arg(slopeWords(trend.efficient->value, measure, phrases),
                          intervalWords(*trend.efficient, measure, phrases));
    const QString beside = phrases("%1; %2").arg(testWords(trend, phrases), visitsWords(trend, phrases));
    lines += isTold(*robust, measure)
                 ? phrases("Robust slope beside it, Theil–Sen: %1 (%2); %3.")
                       .arg(slopeWords(robust->value, measure, phrases),
                            intervalWords(*robust, measure, phrases), beside)
                 : phrases("No robust slope (Theil–Sen): these visits do not bound it; %1.").arg(beside);
    return lines;
}

QString eventWords(const judging::Event& event, const Phrasebook& phrases)
{
    const QString day = records::dayInWords(event.day, phrases);
    const bool hasSide = event.side != records::Side::None;
    QString words;
    switch (event.kind) {
    case judging::Event::Kind::BecameUnable:
        words = hasSide ? phrases("Became unable on %1, %2") : phrases("Became unable on %1");
        break;
    case judging::Event::Kind::BecameAble:
        words = hasSide ? phrases("Became able on %1, %2") : phrases("Became able on %1");
        break;
    case judging::Event::Kind::SidesDiffer:
        return phrases("Right and left differ beyond error from %1").arg(day);
    case judging::Event::Kind::SidesAlike:
        return phrases("Right and left no longer differ beyond error from %1").arg(day);
    }
    return hasSide ? words.arg(day, records::written(event.side, phrases)) : words.arg(day);
}

QString compositeWords(const judging::CompositeWorsening& worsening, const catalogue::Catalogue& catalogue,
                       const Phrasebook& phrases)
{
    const Measure* measure = catalogue.measure(worsening.measure);
    if (measure == nullptr || !worsening.reference.number || !worsening.confirmed.number)
        return {};
    const QString title = records::sidedTitle(*measure, worsening.side, phrases);
    return phrases("Composite confirmed worsening, %1: %2 on %3, %4 on %5, %6 % longer; at least 20 % longer "
                   "since %7 without a break (rule of Cadavid et al. 2017, Mult Scler 23:1266, from memory; "
                   "without its disability scale).")
        .arg(title, amount(*worsening.reference.number, *measure, phrases),
             records::dayInWords(worsening.reference.day, phrases),
             amount(*worsening.confirmed.number, *measure, phrases),
             records::dayInWords(worsening.confirmed.day, phrases), base::fixed(worsening.percent, 0),
             records::dayInWords(worsening.seen.day, phrases));
}

} // namespace telling
