#include "core/telling/target_words.h"

#include "core/records/wording.h"

namespace telling
{

namespace
{

using judging::TargetState;

QString valueWords(const records::Target& target, const catalogue::Measure& measure,
                   const base::Phrasebook& phrases)
{
    if (catalogue::isNumeric(measure.kind)) {
        const QString value =
            records::written(values::Quantity{target.value, measure.unit}, measure, phrases);
        return measure.better == catalogue::Direction::HigherIsBetter ? phrases("at least %1").arg(value)
                                                                      : phrases("at most %1").arg(value);
    }
    const values::Grade grade{int(target.value)};
    const bool isBest =
        target.value ==
        (measure.better == catalogue::Direction::HigherIsBetter ? measure.highest : measure.lowest);
    const QString words = records::written(grade, measure, phrases);
    return isBest ? words : phrases("%1 or better").arg(words);
}

/// Why a target that is reached is not reached beyond error.
QString withinError(const judging::TargetProgress& progress, const base::Phrasebook& phrases)
{
    const auto& since = progress.since;
    if (progress.now && progress.now->day <= progress.target.agreedOn)
        return phrases("reached when it was agreed already");
    if (!since)
        return phrases("reached; there is no comparable result from before it was agreed");
    if (since->verdict == judging::Verdict::WithinError)
        return phrases("reached; the change since it was agreed is within error");
    if (since->verdict == judging::Verdict::Worse)
        return phrases("reached, though worse beyond error than when it was agreed");
    return phrases("reached; no error is known for the change since it was agreed");
}

} // namespace

QString goalWords(const records::Target& target, const catalogue::Measure& measure,
                  const base::Phrasebook& phrases)
{
    const QString value = valueWords(target, measure, phrases);
    return target.by ? phrases("%1 by %2").arg(value, records::dayInWords(*target.by, phrases)) : value;
}

QString standingWords(const judging::TargetProgress& progress, const base::Phrasebook& phrases)
{
    switch (progress.state) {
    case TargetState::ReachedBeyondError:
        return phrases("reached beyond error");
    case TargetState::ReachedWithinError:
        return withinError(progress, phrases);
    case TargetState::NotReached:
        return progress.isOverdue ? phrases("not reached, and its day has passed") : phrases("not reached");
    case TargetState::NotSeen:
        return progress.isOverdue ? phrases("the test was not done, and its day has passed")
                                  : phrases("the test was not done yet");
    case TargetState::NoLongerLookedAt:
        break;
    }
    return phrases("no longer looked at: “%1”").arg(progress.target.droppedFor);
}

QString targetPart(const judging::TargetProgress& progress, const catalogue::Measure& measure,
                   const base::Phrasebook& phrases)
{
    return phrases("target: %1 %2, %3")
        .arg(records::sidedTitle(measure, progress.target.side, phrases),
             goalWords(progress.target, measure, phrases), standingWords(progress, phrases));
}

QString targetWords(const judging::TargetProgress& progress, const catalogue::Measure& measure,
                    const base::Phrasebook& phrases)
{
    const QString title = records::sidedTitle(measure, progress.target.side, phrases);
    const QString goal = goalWords(progress.target, measure, phrases);
    const QString standing = standingWords(progress, phrases);
    if (!progress.now || progress.state == TargetState::NoLongerLookedAt)
        return phrases("%1: %2; %3.").arg(title, goal, standing);
    return phrases("%1: %2; %3 on %4, %5.")
        .arg(title, goal, records::written(progress.now->finding.value, measure, phrases),
             records::dayInWords(progress.now->day, phrases), standing);
}

} // namespace telling
