#include "core/judging/room.h"
#include "core/records/since_onset.h"
#include "core/records/visit.h"
#include "core/records/wording.h"
#include "core/telling/row_words.h"
#include "core/telling/terms.h"
#include "core/telling/wording.h"

#include <algorithm>
#include <cmath>

using namespace Qt::StringLiterals;

namespace telling
{

namespace
{

using base::Phrasebook;
using catalogue::Catalogue;
using catalogue::Direction;
using catalogue::Kind;
using catalogue::Measure;
using catalogue::Threshold;

bool hasEnds(const Measure& measure)
{
    return measure.kind == Kind::Grade || measure.kind == Kind::Score || measure.kind == Kind::Count;
}

/// A result at an end of its scale cannot move further that way.
QString endOfScale(const judging::Comparison& held, const Measure& measure, const Phrasebook& phrases)
{
    const auto number = values::number(held.now.finding.value);
    if (!number || !hasEnds(measure) || measure.better == Direction::Neither)
        return {};
    const bool higher = measure.better == Direction::HigherIsBetter;
    if (measure.highest && *number >= *measure.highest)
        return higher ? phrases("At the top of the scale: further improvement cannot show.")
                      : phrases("At the top of the scale: further decline cannot show.");
    if (measure.lowest && *number <= *measure.lowest)
        return higher ? phrases("At the bottom of the scale: further decline cannot show.")
                      : phrases("At the bottom of the scale: further improvement cannot show.");
    return {};
}

QString capReached(const records::Occasion& occasion, const Measure& measure, const Phrasebook& phrases)
{
    if (!judging::isAtCap(occasion.finding, measure) || !measure.cap)
        return {};
    return phrases("On %1 the trial was stopped at %2: anything beyond cannot show.")
        .arg(records::dayInWords(occasion.day, phrases), amount(*measure.cap, measure, phrases));
}

QString draft(const records::Occasion& reference, const Phrasebook& phrases)
{
    if (reference.state != records::VisitState::Draft)
        return {};
    return phrases("The visit of %1 is an unsigned draft.").arg(records::dayInWords(reference.day, phrases));
}

QString important(const judging::Comparison& held, const Measure& measure, const Catalogue& catalogue,
                  const Phrasebook& phrases)
{
    if (!held.difference || !held.important)
        return {};
    const double limit = held.important->limitFor(*held.difference, measure.better);
    const bool isReached = !values::exceeds(limit, std::abs(*held.difference));
    const bool isHidden =
        held.threshold && values::exceeds(held.threshold->limitFor(*held.difference, measure.better), limit);
    QString sentence = phrases("A change of %1 has been called important (%2).");
    if (isReached && held.verdict == judging::Verdict::WithinError)
        sentence = phrases(
            "This difference reaches the %1 that has been called important (%2) and still lies within the "
            "error.");
    else if (isHidden)
        sentence = phrases("A change of %1 has been called important (%2); it can lie within the error.");
    return sentence.arg(amount(limit, measure, phrases),
                        sourceWords(held.important->row, catalogue, phrases));
}

/// A row for people under a condition that nobody recorded here.
QString unrecordedCondition(const Threshold& row, const judging::Comparison& held, const Catalogue& catalogue,
                            const Phrasebook& phrases)
{
    if (!row.condition)
        return {};
    const QString& id = row.condition->condition;
    if (!records::recorded(held.now.conditions, id).isEmpty() ||
        !records::recorded(held.reference.conditions, id).isEmpty())
        return {};
    return phrases("%1 holds for people with %2; that is not recorded here.")
        .arg(sourceWords(row, catalogue, phrases), requirementWords(*row.condition, catalogue, phrases));
}

QString choiceThatDoesNotFit(const judging::Comparison& held, const Phrasebook& phrases)
{
    if (!held.choice || held.isChosen)
        return {};
    return (held.isClinicChoice
                ? phrases("The row that %1 chose for this population does not fit this comparison; the rule "
                          "decided.")
                : phrases("The row that %1 chose for this patient does not fit this comparison; the rule "
                          "decided."))
        .arg(held.choice->who);
}

/// A gap at least ten times the longest published one.
QString longGap(const Threshold& row, const judging::Comparison& held, const Phrasebook& phrases)
{
    constexpr double far = 10;
    const qint64 days = held.reference.day.daysTo(held.now.day);
    if (!row.daysHigh || *row.daysHigh < 1 || double(days) < far * *row.daysHigh)
        return {};
    return phrases("The visits lie %1 apart; the error was measured over at most %2.")
        .arg(daysWords(double(days), phrases), daysWords(*row.daysHigh, phrases));
}

/// The stage of stroke at this time after its onset.
QString strokeStage(records::SinceOnset since)
{
    using records::SinceOnset;
    return since == SinceOnset::Week     ? u"stroke-acute"_s
           : since == SinceOnset::Longer ? u"stroke-chronic"_s
                                         : u"stroke-subacute"_s;
}

/// The recorded stage of a stroke is not the one of this day.
QString otherStage(const judging::Comparison& held, const Catalogue& catalogue, const Phrasebook& phrases)
{
    const auto isRecorded = [&](records::SinceOnset since) { return strokeStage(since) == held.population; };
    const auto since = held.onset ? records::sinceOnset(*held.onset, held.now.day) : std::nullopt;
    if (!since || isRecorded(*since) || std::ranges::none_of(records::allSinceOnset, isRecorded))
        return {};
    return phrases("%1 is recorded for this patient, but this visit is %2 after the onset, which is %3: "
                   "the threshold is that of the recorded stage.")
        .arg(populationWords(held.population, catalogue),
             daysWords(double(held.onset->daysTo(held.now.day)), phrases),
             populationWords(strokeStage(*since), catalogue));
}

QString otherBand(const judging::Comparison& held, const Measure& measure, const Phrasebook& phrases)
{
    if (!held.otherBand)
        return {};
    const Threshold& row = *held.otherBand;
    return phrases(
               "The two visits lie in different bands of the row; the threshold of the present one is %1.")
        .arg(publishedLimit(judging::Applied{row}.publishedFor(*held.difference, measure.better), row,
                            measure, phrases));
}

QStringList aboutRow(const judging::Comparison& held, const Catalogue& catalogue, const Phrasebook& phrases)
{
    if (!held.threshold)
        return {choiceThatDoesNotFit(held, phrases)};
    const Threshold& row = held.threshold->row;
    QStringList lines = {choiceThatDoesNotFit(held, phrases), otherStage(held, catalogue, phrases),
                         unrecordedCondition(row, held, catalogue, phrases), longGap(row, held, phrases)};
    if (held.isHandUnknown)
        lines +=
            phrases("The dominant hand is not recorded: of the thresholds of both hands the larger one is "
                    "used.");
    if (row.population != held.population)
        lines +=
            phrases("The threshold is of a wider group (%1) than is recorded for this patient (%2).")
                .arg(populationWords(row.population, catalogue), populationWords(held.population, catalogue));
    if (row.checked == catalogue::Checked::Memory)
        lines += phrases("The threshold is from memory; look it up in its source before you rely on it.");
    if (row.basis == catalogue::Basis::Assumed)
        lines += phrases("The source does not state the confidence of the threshold; it is assumed.");
    if (row.design == catalogue::Design::BetweenRaters)
        lines += phrases("The threshold is of two raters, not of two days.");
    if (row.design == catalogue::Design::InternalConsistency)
        lines += phrases("Nobody was tested twice for the threshold: it rests on internal consistency.");
    return lines;
}

} // namespace

QStringList cautions(const judging::Comparison& comparison, const Catalogue& catalogue,
                     const Phrasebook& phrases)
{
    const Measure* measure = catalogue.measure(comparison.measure);
    if (measure == nullptr)
        return {};
    QStringList lines;
    for (const judging::Mismatch& mismatch : comparison.comparability.cautions)
        lines += sentence(mismatchWords(mismatch, comparison, catalogue, phrases), phrases);
    lines += {endOfScale(comparison, *measure, phrases),
              capReached(comparison.reference, *measure, phrases),
              capReached(comparison.now, *measure, phrases),
              draft(comparison.reference, phrases),
              important(comparison, *measure, catalogue, phrases),
              otherBand(comparison, *measure, phrases)};
    if (comparison.important)
        lines += unrecordedCondition(comparison.important->row, comparison, catalogue, phrases);
    lines += aboutRow(comparison, catalogue, phrases);
    lines.removeAll(QString());
    return lines;
}

} // namespace telling
