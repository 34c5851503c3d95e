#include "core/telling/wording.h"

#include "core/records/wording.h"
#include "core/telling/row_words.h"
#include "core/telling/terms.h"

#include <algorithm>
#include <cmath>

namespace telling
{

namespace
{

using base::Phrasebook;
using catalogue::Catalogue;
using catalogue::Measure;
using catalogue::Threshold;

QString notComparable(const judging::Comparison& held, const Catalogue& catalogue, const Phrasebook& phrases)
{
    QStringList reasons;
    for (const judging::Mismatch& mismatch : held.comparability.blocking)
        reasons += mismatchWords(mismatch, held, catalogue, phrases);
    return phrases("Not comparable: %1.").arg(phrases.joined("%1; %2", reasons));
}

QString againstLimit(const judging::Comparison& held, const Measure& measure, const Catalogue& catalogue,
                     const Phrasebook& phrases)
{
    const double difference = *held.difference;
    const double limit = held.threshold->limitFor(difference, measure.better);
    const int decimals = tellingDecimals(std::abs(difference), limit, measure);
    const bool isEqual = !values::exceeds(limit, std::abs(difference));
    QString sentence;
    if (held.verdict != judging::Verdict::WithinError)
        sentence = phrases("%1 against %2: more than the %3 that error alone can explain (%4), so %5.");
    else if (isEqual)
        sentence = phrases("%1 against %2: no more than the %3 that error alone can explain (%4), so %5.");
    else
        sentence = phrases("%1 against %2: less than the %3 that error alone can explain (%4), so %5.");
    QString source = sourceWords(held.threshold->row, catalogue, phrases);
    if (held.isChosen)
        source = phrases("%1; %2").arg(source, choiceWords(held, phrases));
    return sentence.arg(signedAmount(difference, measure, phrases, decimals),
                        records::dayInWords(held.reference.day, phrases),
                        amount(limit, measure, phrases, decimals), source, written(held.verdict, phrases));
}

QString numbersWords(const judging::Comparison& held, const Measure& measure, const Catalogue& catalogue,
                     const Phrasebook& phrases)
{
    const QString sentence = againstLimit(held, measure, catalogue, phrases);
    const QString converted = conversion(held.threshold->publishedFor(*held.difference, measure.better),
                                         *held.threshold, measure, phrases);
    const QString numbers = converted.isEmpty() ? sentence : phrases("%1 %2.").arg(sentence, converted);
    return phrases.joined("%1 %2", {numbers, cannotShowWords(held, phrases)});
}

QString turnWords(const judging::Comparison& held, const Measure& measure, const Phrasebook& phrases)
{
    const QString sentence =
        held.verdict == judging::Verdict::BecameUnable
            ? phrases("Done on %1 (%2); tried and unable on %3, under matching conditions.")
            : phrases("Tried and unable on %1; done on %3 (%2), under matching conditions.");
    const records::Occasion& done =
        held.verdict == judging::Verdict::BecameUnable ? held.reference : held.now;
    return sentence.arg(records::dayInWords(held.reference.day, phrases),
                        records::written(done.finding.value, measure, phrases),
                        records::dayInWords(held.now.day, phrases));
}

bool hasRows(const judging::Comparison& held, const Catalogue& catalogue)
{
    return std::ranges::any_of(catalogue.thresholds, [&](const Threshold& row) {
        return row.measure == held.measure && row.answers == catalogue::Answers::Error &&
               catalogue.isWithin(held.population, row.population);
    });
}

QString noThresholdForNumbers(const judging::Comparison& held, const Measure& measure,
                              const Catalogue& catalogue, const Phrasebook& phrases)
{
    const QString difference = phrases("%1 against %2.")
                                   .arg(signedAmount(*held.difference, measure, phrases),
                                        records::dayInWords(held.reference.day, phrases));
    QString reason;
    if (measure.better == catalogue::Direction::Neither)
        reason = phrases("No published threshold: neither direction of this test is better.");
    else if (held.population.isEmpty())
        reason =
            phrases("No published threshold can be chosen: the population is not recorded for this patient.");
    else if (hasRows(held, catalogue))
        reason =
            phrases(
                "No published threshold fits: those for this population (%1) ask for another level, hand or "
                "condition than is recorded.")
                .arg(populationWords(held.population, catalogue));
    else
        reason = phrases("No published threshold for this population (%1).")
                     .arg(populationWords(held.population, catalogue));
    if (!judging::directionOf(held.verdict))
        return phrases("%1 %2").arg(difference, reason);
    return phrases("%1 %2 It is %3.").arg(difference, reason, verdictWords(held, phrases));
}

QString ownVerdictWords(judging::Verdict verdict, const Phrasebook& phrases)
{
    if (verdict == judging::Verdict::Better)
        return phrases("better beyond own scatter");
    return verdict == judging::Verdict::Worse ? phrases("worse beyond own scatter")
                                              : phrases("within own scatter");
}

QString stepWords(const judging::Comparison& held, const Phrasebook& phrases)
{
    const int steps = std::abs(*held.steps);
    return (held.verdict == judging::Verdict::StepBetter
                ? phrases.counted("%1 step better", "%1 steps better", steps)
                : phrases.counted("%1 step worse", "%1 steps worse", steps))
        .arg(steps);
}

QString noThreshold(const judging::Comparison& held, const Measure& measure, const Catalogue& catalogue,
                    const Phrasebook& phrases)
{
    if (held.difference)
        return noThresholdForNumbers(held, measure, catalogue, phrases);
    if (values::isUnable(held.reference.finding.value) && values::isUnable(held.now.finding.value))
        return phrases("Tried and unable at both visits; there is no number to compare.");
    return phrases("There is no result at both visits to compare.");
}

/// Steps and words, which no error judges.
QString directionWords(const judging::Comparison& held, const Measure& measure, const Phrasebook& phrases)
{
    const bool isGrade = measure.kind == catalogue::Kind::Grade;
    const QString sentence = isGrade ? phrases("A grade is compared by its steps: %1 on %2, %3 on %4, so %5.")
                                     : phrases("A word is compared as it is: “%1” on %2, “%3” on %4, so %5.");
    const bool isOneStep = held.steps && std::abs(*held.steps) == 1;
    const QString said =
        sentence.arg(records::written(held.reference.finding.value, measure, phrases),
                     records::dayInWords(held.reference.day, phrases),
                     records::written(held.now.finding.value, measure, phrases),
                     records::dayInWords(held.now.day, phrases), verdictWords(held, phrases));
    if (!isOneStep)
        return said;
    return phrases.joined("%1 %2",
                          {said, phrases("One step may be the examiner's eye (common practice, no source)."),
                           measure.agreement});
}

QString ownScatterWords(const judging::Comparison& held, const Measure& measure, const Phrasebook& phrases)
{
    const judging::OwnScatter& own = *held.own;
    const QString sentence = phrases.counted(
        "No error is known for this test in this population. Against the mean of %1 earlier comparable visit "
        "(%2) it is %3; by this patient's own scatter (%4) at this visit more than %5 is needed: %6.",
        "No error is known for this test in this population. Against the mean of %1 earlier comparable "
        "visits "
        "(%2) it is %3; by this patient's own scatter (%4) at this visit more than %5 is needed: %6.",
        own.visits);
    const double number = *values::number(held.now.finding.value);
    return sentence.arg(QString::number(own.visits), amount(own.mean, measure, phrases),
                        signedAmount(number - own.mean, measure, phrases, 1),
                        amount(own.deviation, measure, phrases), amount(own.limitInUnit(), measure, phrases),
                        verdictWords(held, phrases));
}

} // namespace

QString written(judging::Verdict verdict, const Phrasebook& phrases)
{
    switch (verdict) {
    case judging::Verdict::Better:
        return phrases("better beyond error");
    case judging::Verdict::Worse:
        return phrases("worse beyond error");
    case judging::Verdict::WithinError:
        return phrases("within error");
    case judging::Verdict::NotComparable:
        return phrases("not comparable");
    case judging::Verdict::BecameUnable:
        return phrases("became unable");
    case judging::Verdict::BecameAble:
        return phrases("became able");
    case judging::Verdict::StepBetter:
        return phrases("better by steps");
    case judging::Verdict::StepWorse:
        return phrases("worse by steps");
    case judging::Verdict::Changed:
        return phrases("changed");
    case judging::Verdict::Same:
        return phrases("unchanged");
    case judging::Verdict::NoThreshold:
        break;
    }
    return phrases("no published threshold");
}

QString verdictWords(const judging::Comparison& comparison, const Phrasebook& phrases)
{
    if (comparison.own)
        return ownVerdictWords(comparison.verdict, phrases);
    if (comparison.steps && judging::directionOf(comparison.verdict))
        return stepWords(comparison, phrases);
    if (comparison.difference && judging::directionOf(comparison.verdict) &&
        comparison.tier == judging::Tier::Direction)
        return comparison.verdict == judging::Verdict::StepBetter ? phrases("better in direction alone")
                                                                  : phrases("worse in direction alone");
    const QString verdict = written(comparison.verdict, phrases);
    const judging::CannotShow& hidden = comparison.cannotShow;
    if (comparison.verdict != judging::Verdict::WithinError || hidden == judging::CannotShow())
        return verdict;
    if (hidden.better && hidden.worse)
        return phrases("%1; a change could not show here").arg(verdict);
    return (hidden.better ? phrases("%1; better could not show here")
                          : phrases("%1; worse could not show here"))
        .arg(verdict);
}

QString cannotShowWords(const judging::Comparison& comparison, const Phrasebook& phrases)
{
    const judging::CannotShow& hidden = comparison.cannotShow;
    if (comparison.verdict != judging::Verdict::WithinError || hidden == judging::CannotShow())
        return {};
    if (hidden.better && hidden.worse)
        return phrases("A change could not show here: the scale ends both ways before one is beyond error.");
    return hidden.better ? phrases("A change for the better could not show here: the scale ends before one "
                                   "is beyond error.")
                         : phrases("A change for the worse could not show here: the scale ends before one is "
                                   "beyond error.");
}

QString why(const judging::Comparison& comparison, const Catalogue& catalogue, const Phrasebook& phrases)
{
    const Measure* measure = catalogue.measure(comparison.measure);
    if (measure == nullptr)
        return phrases("This test is not in the catalogue.");
    switch (comparison.verdict) {
    case judging::Verdict::NotComparable:
        return notComparable(comparison, catalogue, phrases);
    case judging::Verdict::BecameUnable:
    case judging::Verdict::BecameAble:
        return turnWords(comparison, *measure, phrases);
    case judging::Verdict::Better:
    case judging::Verdict::Worse:
    case judging::Verdict::WithinError:
        return comparison.own ? ownScatterWords(comparison, *measure, phrases)
                              : numbersWords(comparison, *measure, catalogue, phrases);
    case judging::Verdict::StepBetter:
    case judging::Verdict::StepWorse:
    case judging::Verdict::Changed:
    case judging::Verdict::Same:
        return comparison.difference ? noThresholdForNumbers(comparison, *measure, catalogue, phrases)
                                     : directionWords(comparison, *measure, phrases);
    case judging::Verdict::NoThreshold:
        break;
    }
    return noThreshold(comparison, *measure, catalogue, phrases);
}

QString written(const Threshold& row, const Catalogue& catalogue, const Phrasebook& phrases)
{
    const Measure* measure = catalogue.measure(row.measure);
    if (measure == nullptr)
        return row.id;
    QString limit = publishedLimit(row.improvement, row, *measure, phrases);
    if (row.improvement != row.decline)
        limit = phrases("%1 for the better, %2 for the worse")
                    .arg(limit, publishedLimit(row.decline, row, *measure, phrases));
    QStringList parts = {limit, sourceWords(row, catalogue, phrases)};
    if (const QString interval = intervalWords(row, phrases); !interval.isEmpty())
        parts += phrases("interval %1").arg(interval);
    if (row.answers == catalogue::Answers::Important)
        parts += phrases("important change");
    else
        parts += designWords(row.design, phrases);
    if (row.confidence && row.basis)
        parts +=
            phrases("%1 % (%2)").arg(QString::number(*row.confidence * 100), basisWords(*row.basis, phrases));
    else if (row.basis)
        parts += basisWords(*row.basis, phrases);
    if (row.condition)
        parts += phrases("for people with %1").arg(requirementWords(*row.condition, catalogue, phrases));
    if (row.rule)
        parts += trialsWords(row, phrases);
    if (!row.protocol.isEmpty())
        parts += row.protocol;
    if (row.checked == catalogue::Checked::Read)
        parts += phrases("read in the source");
    const QString line = phrases.joined("%1; %2", parts);
    return row.note.isEmpty() ? line : phrases("%1. %2").arg(line, row.note);
}

} // namespace telling
