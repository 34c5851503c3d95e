#include "core/telling/case_words.h"

#include "core/records/patient.h"
#include "core/records/wording.h"
#include "core/telling/outcome_words.h"
#include "core/telling/wording.h"

namespace telling
{

namespace
{

using base::Phrasebook;
using judging::OutcomeKind;

QString kindWords(const judging::Strongest& strongest, const Phrasebook& phrases)
{
    switch (strongest.kind) {
    case OutcomeKind::BecameUnable:
        return phrases("became unable");
    case OutcomeKind::BecameAble:
        return phrases("became able");
    case OutcomeKind::Worse:
    case OutcomeKind::Better: {
        const bool isWorse = strongest.kind == OutcomeKind::Worse;
        const judging::Claim claim{strongest.by, isWorse ? judging::Verdict::Worse : judging::Verdict::Better,
                                   strongest.strength, strongest.since};
        return claimWords(claim, phrases);
    }
    case OutcomeKind::Changed:
        return phrases("changed");
    case OutcomeKind::StepWorse:
        return phrases("worse by steps");
    case OutcomeKind::StepBetter:
        return phrases("better by steps");
    case OutcomeKind::AsBefore:
    case OutcomeKind::First:
    case OutcomeKind::NotCompared:
        break;
    }
    return {};
}

} // namespace

QString strongestWords(const judging::Case& each, const catalogue::Catalogue& catalogue,
                       const Phrasebook& phrases)
{
    if (!each.summary)
        return {};
    if (!each.summary->visit)
        return phrases("no visit yet");
    if (!each.summary->strongest)
        return each.summary->isFirst ? phrases("first results") : phrases("as before");
    const judging::Strongest& strongest = *each.summary->strongest;
    const catalogue::Measure* measure = catalogue.measure(strongest.measure);
    const QString name =
        measure != nullptr ? records::sidedTitle(*measure, strongest.side, phrases) : strongest.measure;
    const QString told = phrases("%1: %2").arg(kindWords(strongest, phrases), name);
    const bool mayBeChance =
        !strongest.isSure && (strongest.kind == OutcomeKind::Worse || strongest.kind == OutcomeKind::Better);
    return mayBeChance ? phrases("%1 (could be chance)").arg(told) : told;
}

QString caseLine(const judging::Case& each, const std::optional<QDate>& due,
                 const catalogue::Catalogue& catalogue, const Phrasebook& phrases)
{
    const QString seen = each.lastSeen ? phrases("seen %1").arg(records::dayInWords(*each.lastSeen, phrases))
                                       : phrases("not seen yet");
    return phrases.joined(
        "%1 · %2",
        {each.recordNumber, phrases.joined("%1, %2", {each.family, each.given}), seen,
         due ? phrases("due %1").arg(records::dayInWords(*due, phrases)) : QString(),
         each.draft ? phrases("draft %1").arg(records::dayInWords(*each.draft, phrases)) : QString(),
         strongestWords(each, catalogue, phrases)});
}

} // namespace telling
