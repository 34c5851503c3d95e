#include "core/judging/comparison.h"

#include "core/base/text.h"
#include "core/judging/room.h"
#include "core/judging/weight.h"
#include "core/records/codes.h"
#include "core/statistics/reliability.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace judging
{

namespace
{

using catalogue::Answers;
using catalogue::Direction;
using catalogue::Scale;
using catalogue::Threshold;

constexpr std::array verdicts = {"better",       "worse",         "within-error", "not-comparable",
                                 "no-threshold", "became-unable", "became-able",  "step-better",
                                 "step-worse",   "changed",       "same"};
constexpr std::array tiers = {"", "published", "clinic", "own-scatter", "direction"};
constexpr std::array strengths = {"none", "seen-once", "confirmed", "trend-seen-once", "sustained"};
constexpr std::array rules = {"first-visit", "previous-visit", "best-visit", "confirmed",
                              "sequential",  "reversal",       "order",      "own-scatter"};

/// What the published limit is multiplied with to stand at 95 %: 1.96 / 1.645 for one at 90 %. A limit
/// without a confidence is taken as published.
double toOurConfidence(const Threshold& row)
{
    const auto published = row.confidence ? statistics::normalQuantile(*row.confidence) : std::nullopt;
    const auto ours = statistics::normalQuantile(judgedAt);
    return published && ours ? *ours / *published : 1;
}

bool isAtOurConfidence(const Threshold& row)
{
    return !row.confidence || !(std::abs(*row.confidence - judgedAt) > 1e-9);
}

/// A limit on the row's scale as a difference in the measure's unit, upwards or downwards from the reference.
double inUnit(double limit, Scale scale, double reference, double now, bool upwards)
{
    switch (scale) {
    case Scale::Absolute:
        return limit;
    case Scale::PercentOfReference:
        return limit / 100 * std::abs(reference);
    case Scale::ProportionalToMean:
        return limit * std::abs(reference + now) / 2;
    case Scale::Log:
        return reference * (upwards ? std::expm1(limit) : -std::expm1(-limit));
    }
    return 0;
}

struct Limits {
    double improvement = 0;
    double decline = 0;
};

/// In the measure's unit, at our confidence.
std::optional<Limits> limitsOf(const Threshold& row, double reference, double now, Direction better)
{
    const double factor = isAtOurConfidence(row) ? 1 : toOurConfidence(row);
    const bool higher = better == Direction::HigherIsBetter;
    const Limits limits{inUnit(row.improvement * factor, row.scale, reference, now, higher),
                        inUnit(row.decline * factor, row.scale, reference, now, !higher)};
    const bool arePositive = limits.improvement > 0 && limits.decline > 0;
    return arePositive && std::isfinite(limits.improvement) && std::isfinite(limits.decline)
               ? std::optional(limits)
               : std::nullopt;
}

std::optional<double> differenceOf(const records::Finding& reference, const records::Finding& now)
{
    const auto* before = std::get_if<values::Quantity>(&reference.value);
    const auto* after = std::get_if<values::Quantity>(&now.value);
    if (before == nullptr || after == nullptr || before->unit != after->unit)
        return std::nullopt;
    return after->number - before->number;
}

QString handOf(records::Side side, records::Hand dominant)
{
    const bool isOneHanded = dominant == records::Hand::Right || dominant == records::Hand::Left;
    if (side == records::Side::None || !isOneHanded)
        return {};
    const bool isDominant = (side == records::Side::Right) == (dominant == records::Hand::Right);
    return isDominant ? QStringLiteral("dominant") : QStringLiteral("non-dominant");
}

/// What two visits record together of one condition; where they differ, both words, which are no row's.
QString common(const QString& before, const QString& now)
{
    if (before == now || now.isEmpty())
        return before;
    if (before.isEmpty() || base::folded(before) == base::folded(now))
        return now;
    return before + QStringLiteral(", ") + now;
}

/// The same of those conditions that a threshold of the measure asks for.
records::Conditions common(const Comparison& held, const catalogue::Catalogue& catalogue)
{
    records::Conditions together;
    for (const Threshold& row : catalogue.thresholds) {
        if (row.measure != held.measure || !row.condition)
            continue;
        const QString& id = row.condition->condition;
        together[id] = common(records::recorded(held.reference.conditions, id),
                              records::recorded(held.now.conditions, id));
    }
    return together;
}

Circumstances circumstances(const Comparison& held, const catalogue::Catalogue& catalogue,
                            const records::Patient& patient, std::map<QString, double> levels)
{
    if (const auto* level = std::get_if<values::Quantity>(&held.reference.finding.value))
        levels.try_emplace(held.measure, level->number);
    const auto days = double(std::abs(held.reference.day.daysTo(held.now.day)));
    return {held.population,
            handOf(held.side, patient.dominantHand),
            std::move(levels),
            common(held, catalogue),
            days,
            held.choice ? held.choice->threshold : QString()};
}

/// The newest choice of the measure for this patient, else the clinic's for the population; neither where the
/// newest goes back to the rule.
void takeChoice(Comparison& held, const records::Patient& patient, const records::Judging& judging)
{
    const auto ofPatient =
        std::find_if(patient.choices.rbegin(), patient.choices.rend(),
                     [&](const records::EvidenceChoice& choice) { return choice.measure == held.measure; });
    if (ofPatient != patient.choices.rend() && !ofPatient->threshold.isEmpty()) {
        held.choice = *ofPatient;
        return;
    }
    const auto ofClinic = std::find_if(
        judging.choices.rbegin(), judging.choices.rend(), [&](const records::PopulationChoice& each) {
            return each.population == held.population && each.choice.measure == held.measure;
        });
    if (ofClinic == judging.choices.rend() || ofClinic->choice.threshold.isEmpty())
        return;
    held.choice = ofClinic->choice;
    held.isClinicChoice = true;
}

struct Best {
    std::optional<Applied> used;
    std::vector<NotUsed> notUsed;
    bool isChosen = false;
};

bool isOfOtherHand(const Threshold& row, const Threshold& of)
{
    return !row.hand.isEmpty() && row.hand != of.hand && row.source == of.source &&
           row.population == of.population && row.bandLow == of.bandLow && row.bandHigh == of.bandHigh &&
           row.condition == of.condition;
}

/// Where which hand is dominant is not recorded, the row of the hand with the larger limit.
void takeLargerHand(Best& best, double reference, double now, Direction better)
{
    for (NotUsed& other : best.notUsed) {
        const auto limit = isOfOtherHand(other.row, best.used->row)
                               ? applied(other.row, reference, now, better)
                               : std::nullopt;
        if (!limit)
            continue;
        if (limit->decline + limit->improvement > best.used->decline + best.used->improvement) {
            other.row = best.used->row;
            best.used = limit;
        }
        other.reason = WhyNot::SmallerLimit;
    }
}

/// The best fitting row that gives a limit at these two values, and the others that fit.
Best best(const Comparison& held, catalogue::Answers answers, const catalogue::Catalogue& catalogue,
          const Circumstances& here, Direction better)
{
    const double reference = *values::number(held.reference.finding.value);
    const double now = *values::number(held.now.finding.value);
    Evidence fitting = evidence(catalogue, held.measure, answers, here);
    if (fitting.used)
        fitting.notUsed.insert(fitting.notUsed.begin(), *fitting.used);
    Best found;
    for (const Threshold& row : fitting.notUsed) {
        const auto limit = applied(row, reference, now, better);
        if (limit && !found.used) {
            found.used = limit;
            found.isChosen = fitting.isChosen && row.id == fitting.used->id;
        } else {
            found.notUsed.push_back(
                {row, limit ? whyNot(row, found.used->row, catalogue, here) : WhyNot::NoLimit});
        }
    }
    if (found.used && here.hand.isEmpty() && !found.used->row.hand.isEmpty())
        takeLargerHand(found, reference, now, better);
    return found;
}

void judgeStates(Comparison& held, Direction better)
{
    const records::Finding& before = held.reference.finding;
    const records::Finding& now = held.now.finding;
    const bool wasUnable = values::isUnable(before.value);
    const bool isUnable = values::isUnable(now.value);
    if (!wasUnable && isUnable && values::isDone(before.value))
        held.verdict = Verdict::BecameUnable;
    else if (wasUnable && values::isDone(now.value))
        held.verdict = Verdict::BecameAble;
    else
        held.verdict = verdictOfStep(before, now, better);
    held.tier = held.verdict == Verdict::NoThreshold ? Tier::None : Tier::Direction;
    const auto* gradeBefore = std::get_if<values::Grade>(&before.value);
    const auto* gradeNow = std::get_if<values::Grade>(&now.value);
    if (gradeBefore != nullptr && gradeNow != nullptr)
        held.steps = gradeNow->step - gradeBefore->step;
}

/// What is counted or held as long as it goes has a direction where no error is known for it.
void judgeDirection(Comparison& held, const catalogue::Measure& measure)
{
    const bool isHold =
        measure.kind == catalogue::Kind::Duration && measure.better == Direction::HigherIsBetter;
    if (measure.kind != catalogue::Kind::Count && !isHold)
        return;
    held.verdict = verdictOfStep(held.reference.finding, held.now.finding, measure.better);
    held.tier = Tier::Direction;
}

int trialsBehind(const records::Occasion& occasion, const catalogue::Measure& measure)
{
    const auto trials = static_cast<int>(occasion.finding.trials.size());
    return measure.rule == catalogue::TrialRule::Mean ? std::max(trials, 1) : 1;
}

/// Means of several trials err less only where the row is of single ones.
void narrow(Comparison& held, const catalogue::Measure& measure, Averaged averaged)
{
    if (!held.threshold)
        return;
    Applied& threshold = *held.threshold;
    if (threshold.row.rule == catalogue::TrialRule::Single) {
        averaged.reference *= trialsBehind(held.reference, measure);
        averaged.now *= trialsBehind(held.now, measure);
    }
    threshold.factor = averaged.factor();
    threshold.improvement *= threshold.factor;
    threshold.decline *= threshold.factor;
}

Verdict verdictOfNumbers(double difference, double limit, Direction better)
{
    if (!values::exceeds(std::abs(difference), limit))
        return Verdict::WithinError;
    return (difference > 0) == (better == Direction::HigherIsBetter) ? Verdict::Better : Verdict::Worse;
}

} // namespace

QString code(Verdict verdict)
{
    return QString::fromLatin1(verdicts.at(static_cast<size_t>(verdict)));
}

bool isBeyondError(Verdict verdict)
{
    return verdict == Verdict::Better || verdict == Verdict::Worse;
}

std::optional<Verdict> directionOf(Verdict verdict)
{
    if (verdict == Verdict::Better || verdict == Verdict::StepBetter)
        return Verdict::Better;
    if (verdict == Verdict::Worse || verdict == Verdict::StepWorse)
        return Verdict::Worse;
    return std::nullopt;
}

QString code(Tier tier)
{
    return QString::fromLatin1(tiers.at(static_cast<size_t>(tier)));
}

double OwnScatter::limitInUnit() const
{
    return limit * deviation * std::sqrt(1 + 1.0 / visits);
}

QString code(Strength strength)
{
    return QString::fromLatin1(strengths.at(static_cast<size_t>(strength)));
}

std::optional<Strength> strengthFromCode(const QString& code)
{
    return records::fromCode<Strength>(strengths, code);
}

QString code(statistics::FlagRule rule)
{
    return QString::fromLatin1(rules.at(static_cast<size_t>(rule)));
}

double Averaged::factor() const
{
    return std::sqrt((1.0 / reference + 1.0 / now) / 2);
}

double Applied::limitFor(double difference, Direction better) const
{
    return (difference >= 0) == (better == Direction::HigherIsBetter) ? improvement : decline;
}

double Applied::publishedFor(double difference, Direction better) const
{
    return Applied{row, row.improvement, row.decline}.limitFor(difference, better);
}

std::optional<Applied> applied(const Threshold& row, double reference, double now, Direction better)
{
    const auto limits = limitsOf(row, reference, now, better);
    return limits
               ? std::optional(Applied{row, limits->improvement, limits->decline, 1, !isAtOurConfidence(row)})
               : std::nullopt;
}

Verdict verdictOf(const Applied& threshold, double reference, double now, Direction better)
{
    const auto limits = limitsOf(threshold.row, reference, now, better);
    if (!limits)
        return Verdict::NoThreshold;
    const bool isBetter = (now > reference) == (better == Direction::HigherIsBetter);
    return verdictOfNumbers(now - reference,
                            (isBetter ? limits->improvement : limits->decline) * threshold.factor, better);
}

Verdict verdictOfStep(const records::Finding& before, const records::Finding& now, Direction better)
{
    const auto* wordBefore = std::get_if<values::Choice>(&before.value);
    const auto* wordNow = std::get_if<values::Choice>(&now.value);
    if (wordBefore != nullptr && wordNow != nullptr)
        return wordBefore->key == wordNow->key ? Verdict::Same : Verdict::Changed;
    const auto numberBefore = values::number(before.value);
    const auto numberNow = values::number(now.value);
    if (!numberBefore || !numberNow)
        return Verdict::NoThreshold;
    const bool isMore = values::exceeds(*numberNow, *numberBefore);
    if (!isMore && !values::exceeds(*numberBefore, *numberNow))
        return Verdict::Same;
    if (better == Direction::Neither)
        return Verdict::Changed;
    return isMore == (better == Direction::HigherIsBetter) ? Verdict::StepBetter : Verdict::StepWorse;
}

std::optional<double> standardErrorOf(const Threshold& row)
{
    if (row.answers != Answers::Error)
        return std::nullopt;
    if (row.sem && (row.scale == Scale::Absolute || row.scale == Scale::PercentOfReference))
        return row.sem;
    const auto z = row.confidence ? statistics::normalQuantile(*row.confidence) : std::nullopt;
    const bool isSymmetric =
        !values::exceeds(row.improvement, row.decline) && !values::exceeds(row.decline, row.improvement);
    if (!z || row.scale != Scale::Absolute || !isSymmetric)
        return std::nullopt;
    return row.improvement / (*z * std::numbers::sqrt2);
}

Comparison comparison(const catalogue::Catalogue& catalogue, const records::Patient& patient,
                      const records::Occasion& reference, const records::Occasion& now,
                      const std::map<QString, double>& levels, Averaged averaged,
                      const records::Judging& judging)
{
    Comparison held;
    held.measure = now.finding.measure;
    held.side = now.finding.side;
    held.population = patient.population;
    held.onset = patient.onset;
    held.reference = reference;
    held.now = now;
    const catalogue::Measure* measure = catalogue.measure(held.measure);
    if (measure == nullptr)
        return held;
    held.difference = differenceOf(reference.finding, now.finding);
    held.comparability = comparability(*measure, catalogue, held.population, reference, now);
    if (!held.comparability.isComparable()) {
        held.verdict = Verdict::NotComparable;
        return held;
    }
    if (!held.difference) {
        judgeStates(held, measure->better);
        return held;
    }
    if (measure->better == Direction::Neither)
        return held;
    takeChoice(held, patient, judging);
    const Circumstances here = circumstances(held, catalogue, patient, levels);
    const Best error = best(held, Answers::Error, catalogue, here, measure->better);
    held.threshold = error.used;
    held.notUsed = error.notUsed;
    held.isChosen = error.isChosen;
    held.isHandUnknown = held.threshold && !held.threshold->row.hand.isEmpty() && here.hand.isEmpty();
    held.important = best(held, Answers::Important, catalogue, here, measure->better).used;
    narrow(held, *measure, averaged);
    weigh(held, measure->better);
    if (!held.threshold) {
        judgeDirection(held, *measure);
        return held;
    }
    held.verdict = verdictOfNumbers(
        *held.difference, held.threshold->limitFor(*held.difference, measure->better), measure->better);
    held.tier = held.threshold->row.isOwn ? Tier::Clinic : Tier::Published;
    held.cannotShow = cannotShow(*held.threshold, *values::number(held.reference.finding.value), *measure);
    return held;
}

} // namespace judging
