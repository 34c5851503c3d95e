#include "core/telling/plain_words.h"

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
using judging::Tier;

class PlainTeller
{
public:
    PlainTeller(const Outcome& outcome, const Change& change, const Measure& measure,
                const Phrasebook& phrases)
        : m_outcome(outcome), m_change(change), m_measure(measure), m_phrases(phrases)
    {
    }

    /// "13.6 s now against 9.8 s on 14-Nov-2022"
    QString against(const judging::Comparison& held) const
    {
        return m_phrases("%1 now against %2 on %3")
            .arg(value(m_change.now), value(held.reference), dayOf(held.reference));
    }

    QString claimed(const judging::Comparison& held) const
    {
        const Claim& claim = *m_outcome.claim;
        return m_phrases.joined("%1 %2",
                                {cause(claim, held), strength(claim), besides(),
                                 m_outcome.isSure ? QString()
                                                  : m_phrases("With so many results judged at this visit, it "
                                                              "could still be chance.")});
    }

    QString unable(const judging::Comparison& held) const
    {
        const QString since = records::dayInWords(*m_outcome.since, m_phrases);
        return m_outcome.kind == OutcomeKind::BecameUnable
                   ? m_phrases("Tried and unable since %1; on %2 it was %3.")
                         .arg(since, dayOf(held.reference), value(held.reference))
                   : m_phrases("Able since %1: %2 now; on %3 tried and unable.")
                         .arg(since, value(m_change.now), dayOf(held.reference));
    }

    QString stepped(const judging::Comparison& held) const
    {
        const QString eye = m_measure.kind == catalogue::Kind::Grade
                                ? m_phrases("Examiners often differ by a step, and no error is known for it.")
                                : m_phrases("No error is known for it, so only the direction is told.");
        return m_phrases("%1. %2").arg(against(held), eye);
    }

    QString quiet(const judging::Comparison& held) const
    {
        switch (held.verdict) {
        case judging::Verdict::WithinError:
            return (held.tier == Tier::OwnScatter
                        ? m_phrases("%1: no more than this patient's results usually differ.")
                        : m_phrases("%1: no more than measurement error explains."))
                .arg(against(held));
        case judging::Verdict::NoThreshold:
            return m_phrases("%1. No error is known for it.").arg(against(held));
        case judging::Verdict::Better:
        case judging::Verdict::Worse:
        case judging::Verdict::NotComparable:
        case judging::Verdict::BecameUnable:
        case judging::Verdict::BecameAble:
        case judging::Verdict::StepBetter:
        case judging::Verdict::StepWorse:
        case judging::Verdict::Changed:
        case judging::Verdict::Same:
            break;
        }
        return m_phrases("%1, as on %2.").arg(value(m_change.now), dayOf(held.reference));
    }

    QString changed(const judging::Comparison& held) const
    {
        const QString signs = signsWords(m_outcome.newSigns, m_measure, m_phrases);
        const QString news = signs.isEmpty() ? QString() : m_phrases("New: %1.").arg(signs);
        return m_phrases.joined("%1 %2", {m_phrases("%1.").arg(against(held)), news});
    }

    QString notCompared(const judging::Comparison& held, const catalogue::Catalogue& catalogue) const
    {
        return m_phrases("%1, but not to be compared: %2.")
            .arg(against(held),
                 mismatchWords(held.comparability.blocking.front(), held, catalogue, m_phrases));
    }

private:
    QString value(const records::Occasion& occasion) const
    {
        return records::written(occasion.finding.value, m_measure, m_phrases);
    }

    QString dayOf(const records::Occasion& occasion) const
    {
        return records::dayInWords(occasion.day, m_phrases);
    }

    QString cause(const Claim& claim, const judging::Comparison& held) const
    {
        const auto& trend = m_change.course.trend;
        if (claim.by == Says::Reversal) {
            const judging::Reversal& reversal = *trend->reversal;
            return m_phrases("The last two visits lie at %1 on average, those of %2 and %3 at %4: more than "
                             "measurement error explains.")
                .arg(amount(reversal.now, m_measure, m_phrases),
                     records::dayInWords(reversal.from, m_phrases),
                     records::dayInWords(reversal.until, m_phrases),
                     amount(reversal.before, m_measure, m_phrases));
        }
        if (held.own)
            return m_phrases("%1: more than this patient's results usually differ.").arg(against(held));
        if (judging::isBeyondError(held.verdict))
            return m_phrases("%1: more than measurement error explains.").arg(against(held));
        return trend && trend->orderP
                   ? m_phrases("%1: the order of the results is hardly chance.").arg(against(held))
                   : m_phrases("%1: no single step beyond error, but the visits go one way.")
                         .arg(against(held));
    }

    QString strength(const Claim& claim) const
    {
        const QString since = records::dayInWords(claim.since, m_phrases);
        switch (claim.strength) {
        case Strength::None:
        case Strength::SeenOnce:
            break;
        case Strength::Confirmed:
            return m_phrases("It was so at every comparable visit since %1.").arg(since);
        case Strength::TrendSeenOnce:
            return m_phrases("Whether it lasts, the next visits will show.");
        case Strength::Sustained:
            return m_phrases
                .counted("%1 comparable visit says so since %2, whichever of the last three is left out.",
                         "%1 comparable visits say so since %2, whichever of the last three is left out.",
                         m_change.course.trend->n)
                .arg(QString::number(m_change.course.trend->n), since);
        }
        return m_phrases("Seen once: the next visit will show whether it stays.");
    }

    QString besides() const
    {
        if (!m_outcome.besides)
            return {};
        return m_phrases("Over the whole course it is better, since %1.")
            .arg(records::dayInWords(m_outcome.besides->since, m_phrases));
    }

    const Outcome& m_outcome;
    const Change& m_change;
    const Measure& m_measure;
    const Phrasebook& m_phrases;
};

} // namespace

QString plainWords(const Outcome& outcome, const Change& change, const catalogue::Catalogue& catalogue,
                   const Phrasebook& phrases)
{
    const Measure* measure = catalogue.measure(change.measure);
    const judging::Comparison* held = judging::decidingOf(change);
    if (measure == nullptr)
        return {};
    if (held == nullptr)
        return phrases("The first result; there is nothing to compare with yet.");
    const PlainTeller teller(outcome, change, *measure, phrases);
    switch (outcome.kind) {
    case OutcomeKind::BecameUnable:
    case OutcomeKind::BecameAble:
        return teller.unable(*held);
    case OutcomeKind::Worse:
    case OutcomeKind::Better:
        return teller.claimed(*held);
    case OutcomeKind::StepWorse:
    case OutcomeKind::StepBetter:
        return teller.stepped(*held);
    case OutcomeKind::Changed:
        return teller.changed(*held);
    case OutcomeKind::NotCompared:
        return teller.notCompared(*held, catalogue);
    case OutcomeKind::AsBefore:
    case OutcomeKind::First:
        break;
    }
    return teller.quiet(*held);
}

} // namespace telling
