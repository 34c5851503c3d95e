#include "core/telling/outcome_words.h"

#include "core/records/patient.h"
#include "core/records/wording.h"
#include "core/telling/terms.h"
#include "core/telling/wording.h"

namespace telling
{

namespace
{

using base::Phrasebook;
using catalogue::Measure;
using judging::Change;
using judging::Claim;
using judging::Outcome;
using judging::OutcomeKind;
using judging::Says;
using judging::Strength;
using judging::Verdict;

/// "sustained"
QString strengthInShort(const Claim& claim, const Phrasebook& phrases)
{
    switch (claim.strength) {
    case Strength::None:
    case Strength::SeenOnce:
        break;
    case Strength::Confirmed:
        return phrases("confirmed");
    case Strength::TrendSeenOnce:
        return claim.by == Says::Reversal ? phrases("seen once") : phrases("trend, seen once");
    case Strength::Sustained:
        return phrases("sustained");
    }
    return phrases("seen once");
}

/// "Heel to shin, left 1 → 3", "Heel to shin, both sides (left 1 → 3)"
QString named(const Change& change, const Measure& measure, bool isOfBothSides, const QString& way,
              const Phrasebook& phrases)
{
    const QString title = records::titled(measure, phrases);
    if (isOfBothSides)
        return phrases("%1, both sides (%2 %3)").arg(title, records::written(change.side, phrases), way);
    return phrases("%1: %2").arg(records::sidedTitle(title, change.side, phrases), way);
}

QString claimTold(const Outcome& outcome, const Change& change, const Measure& measure, bool isOfBothSides,
                  const Phrasebook& phrases)
{
    const Claim& claim = *outcome.claim;
    QString way = wayWords(judging::decidingOf(change)->reference.finding.value, change.now.finding.value,
                           measure, phrases);
    if (claim.by == Says::Reversal) {
        const judging::Reversal& reversal = *change.course.trend->reversal;
        way = phrases("turned from %1 to %2")
                  .arg(amount(reversal.before, measure, phrases), amount(reversal.now, measure, phrases));
    }
    const QString told = named(change, measure, isOfBothSides, way, phrases);
    if (outcome.mayBePractice)
        return phrases("%1 (practice may play a part)").arg(told);
    return outcome.besides
               ? phrases("%1 (over the whole course better, %2)")
                     .arg(told, strengthWords(*outcome.besides, change, outcome.besides->since, phrases))
               : told;
}

/// "Falls since the last visit: 2, with injury"
QString eventsTold(const Change& change, const Measure& measure, const Phrasebook& phrases)
{
    const QString count = phrases("%1: %2").arg(records::titled(measure, phrases),
                                                shortly(change.now.finding.value, measure, phrases));
    return phrases.joined("%1, %2", {count, signsWords(change.now.finding.signs, measure, phrases)});
}

} // namespace

QString shortly(const values::Value& value, const Measure& measure, const Phrasebook& phrases)
{
    if (const auto* grade = std::get_if<values::Grade>(&value))
        return QString::number(grade->step);
    const auto* missing = std::get_if<values::Missing>(&value);
    return missing != nullptr ? records::written(missing->why, phrases)
                              : records::written(value, measure, phrases);
}

QString verdictLine(const Outcome& outcome, const Change& change, const catalogue::Catalogue& catalogue,
                    const Phrasebook& phrases)
{
    const judging::Comparison* held = judging::decidingOf(change);
    if (outcome.kind == OutcomeKind::NotCompared && held != nullptr)
        return phrases("not compared: %1")
            .arg(mismatchWords(held->comparability.blocking.front(), *held, catalogue, phrases));
    if (!outcome.claim)
        return outcomeWords(outcome, change, phrases);
    const Claim& claim = *outcome.claim;
    const bool isWorse = claim.direction == Verdict::Worse;
    QString way = isWorse ? phrases("worse") : phrases("better");
    if (claim.by == Says::FirstVisit)
        way = verdictWords(*held, phrases);
    else if (claim.by == Says::Reversal)
        way = isWorse ? phrases("turned worse") : phrases("turned better");
    QString words = phrases.joined("%1, %2", {way, strengthWords(claim, change, claim.since, phrases)});
    if (outcome.besides)
        words = phrases("%1 (over the whole course better, %2)")
                    .arg(words, strengthWords(*outcome.besides, change, outcome.besides->since, phrases));
    return outcome.isSure ? words : phrases("%1; could be chance").arg(words);
}

QString claimWords(const Claim& claim, const Phrasebook& phrases)
{
    const bool isWorse = claim.direction == Verdict::Worse;
    const QString strength = strengthInShort(claim, phrases);
    if (claim.by == Says::Reversal)
        return (isWorse ? phrases("turned worse, %1") : phrases("turned better, %1")).arg(strength);
    return (isWorse ? phrases("worse, %1") : phrases("better, %1")).arg(strength);
}

QString outcomeWords(const Outcome& outcome, const Change& change, const Phrasebook& phrases)
{
    switch (outcome.kind) {
    case OutcomeKind::BecameUnable:
        return written(Verdict::BecameUnable, phrases);
    case OutcomeKind::BecameAble:
        return written(Verdict::BecameAble, phrases);
    case OutcomeKind::First:
        return phrases("first result");
    case OutcomeKind::Worse:
    case OutcomeKind::Better:
        return claimWords(*outcome.claim, phrases);
    case OutcomeKind::NotCompared:
        return phrases("not compared");
    case OutcomeKind::Changed:
        return phrases("changed");
    case OutcomeKind::StepWorse:
    case OutcomeKind::StepBetter:
    case OutcomeKind::AsBefore:
        break;
    }
    const judging::Comparison* held = judging::decidingOf(change);
    return held != nullptr ? verdictWords(*held, phrases) : QString();
}

QString strengthWords(const Claim& claim, const Change& change, const QDate& until, const Phrasebook& phrases)
{
    const QString day = records::dayInWords(claim.since, phrases);
    const QString since =
        claim.since == until ? phrases("since %1").arg(day) : phrases("the first since %1").arg(day);
    switch (claim.strength) {
    case Strength::None:
    case Strength::SeenOnce:
        break;
    case Strength::Confirmed:
        return phrases("confirmed, %1").arg(since);
    case Strength::TrendSeenOnce:
        if (claim.since == change.now.day)
            return claim.by == Says::Reversal ? phrases("new at this visit")
                                              : phrases("trend, seen once, new at this visit");
        return (claim.by == Says::Reversal ? phrases("seen before, %1") : phrases("trend, seen once, %1"))
            .arg(since);
    case Strength::Sustained:
        return phrases
            .counted("sustained over %1 visit, %2", "sustained over %1 visits, %2", change.course.trend->n)
            .arg(QString::number(change.course.trend->n), since);
    }
    return phrases("seen once");
}

QString wayWords(const values::Value& before, const values::Value& now, const Measure& measure,
                 const Phrasebook& phrases)
{
    const auto* from = std::get_if<values::Quantity>(&before);
    const bool areNumbers = from != nullptr && std::holds_alternative<values::Quantity>(now);
    return phrases("%1 → %2").arg(areNumbers ? records::written(from->number, measure)
                                             : shortly(before, measure, phrases),
                                  shortly(now, measure, phrases));
}

QString told(const Outcome& outcome, const Change& change, const Measure& measure, bool isOfBothSides,
             const Phrasebook& phrases)
{
    if (outcome.claim)
        return claimTold(outcome, change, measure, isOfBothSides, phrases);
    if (measure.countsEvents)
        return eventsTold(change, measure, phrases);
    const judging::Comparison* held = judging::decidingOf(change);
    if (held == nullptr)
        return records::sidedTitle(measure, change.side, phrases);
    const QString way = wayWords(held->reference.finding.value, change.now.finding.value, measure, phrases);
    const QString signs = signsWords(outcome.newSigns, measure, phrases);
    if (signs.isEmpty())
        return named(change, measure, isOfBothSides, way, phrases);
    return phrases("%1, new: %2").arg(named(change, measure, isOfBothSides, way, phrases), signs);
}

} // namespace telling
