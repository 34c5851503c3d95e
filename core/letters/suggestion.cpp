#include "core/letters/composition.h"

#include "core/letters/letter_visit.h"
#include "core/records/wording.h"
#include "core/telling/course_words.h"
#include "core/telling/row_words.h"
#include "core/telling/terms.h"
#include "core/telling/wording.h"

#include <cmath>

namespace letters
{

namespace
{

using judging::Change;
using judging::Comparison;
using judging::Verdict;

/// Says one change in one sentence; one that cannot be judged as an entry of a list.
class Sentences
{
public:
    Sentences(const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases)
        : m_catalogue(catalogue), m_phrases(phrases)
    {
    }

    QString of(const Change& change) const;
    /// Where the first comparable visit gives another answer than the previous one, or a stronger one.
    QString ofBaseline(const Change& change) const;
    QString title(const Change& change) const;

private:
    QString ofDifference(const Change& change) const;
    /// How often the change was seen.
    QString ofStrength(const Comparison& comparison, const Change& change) const;
    QString value(const Change& change, const records::Occasion& occasion) const;
    QString inFull(const Change& change, const records::Occasion& occasion) const;
    QString limit(const Comparison& comparison) const;
    const catalogue::Measure& measure(const Change& change) const
    {
        return *m_catalogue.measure(change.measure);
    }

    const catalogue::Catalogue& m_catalogue;
    const base::Phrasebook& m_phrases;
};

QString Sentences::title(const Change& change) const
{
    return records::sidedTitle(measure(change), change.side, m_phrases);
}

QString Sentences::value(const Change& change, const records::Occasion& occasion) const
{
    return records::written(occasion.finding.value, measure(change), m_phrases);
}

QString Sentences::inFull(const Change& change, const records::Occasion& occasion) const
{
    return records::writtenInFull(occasion.finding.value, measure(change), m_phrases);
}

/// "0.18 m/s, Steffen & Seney 2008, Parkinson disease, n 37"
QString Sentences::limit(const Comparison& comparison) const
{
    const catalogue::Measure& of = *m_catalogue.measure(comparison.measure);
    const double limit = comparison.threshold->limitFor(*comparison.difference, of.better);
    const int decimals = telling::tellingDecimals(std::abs(*comparison.difference), limit, of);
    const QString words =
        m_phrases.joined("%1, %2", {telling::amount(limit, of, m_phrases, decimals),
                                    telling::sourceWords(comparison.threshold->row, m_catalogue, m_phrases)});
    return m_phrases.joined("%1; %2", {words, telling::choiceWords(comparison, m_phrases)});
}

QString Sentences::of(const Change& change) const
{
    const Comparison& comparison = *earlierOf(change);
    return m_phrases.joined("%1 %2", {ofDifference(change), telling::cannotShowWords(comparison, m_phrases),
                                      ofStrength(comparison, change)});
}

QString Sentences::ofDifference(const Change& change) const
{
    const Comparison& comparison = *earlierOf(change);
    const QString now = inFull(change, comparison.now);
    const QString before = value(change, comparison.reference);
    const QString day = records::dayInWords(comparison.reference.day, m_phrases);
    const auto filled = [&](const QString& words) { return words.arg(title(change), now, before, day); };
    const auto filledWith = [&](const QString& words, const QString& fifth) {
        return words.arg(title(change), now, before, day, fifth);
    };
    if (comparison.own)
        return filledWith(m_phrases("%1: %2 at this visit, %3 on %4. %5"),
                          telling::why(comparison, m_catalogue, m_phrases));
    switch (comparison.verdict) {
    case Verdict::BecameUnable:
        return filled(m_phrases("%1: at this visit %2, after %3 on %4 under matching conditions."));
    case Verdict::BecameAble:
        return filled(m_phrases("%1: at this visit %2, where on %4 the result was %3."));
    case Verdict::StepBetter:
    case Verdict::StepWorse:
        return filledWith(m_phrases("%1: %2 at this visit, %3 on %4; %5."),
                          telling::verdictWords(comparison, m_phrases));
    case Verdict::Better:
        return filledWith(m_phrases("%1: %2 at this visit, %3 on %4; better by more than the published "
                                    "measurement error (%5)."),
                          limit(comparison));
    case Verdict::Worse:
        return filledWith(m_phrases("%1: %2 at this visit, %3 on %4; worse by more than the published "
                                    "measurement error (%5)."),
                          limit(comparison));
    case Verdict::WithinError:
        return filledWith(
            m_phrases("%1: %2 at this visit, %3 on %4; the difference could be within error (%5)."),
            limit(comparison));
    case Verdict::NotComparable:
        return filledWith(m_phrases("%1: %2 at this visit, %3 on %4; not comparable, because %5."),
                          whyNotComparable(comparison, m_catalogue, m_phrases));
    case Verdict::Changed:
    case Verdict::Same:
    case Verdict::NoThreshold:
        break;
    }
    return filled(m_phrases("%1: %2, where on %4 it was %3"));
}

QString Sentences::ofStrength(const Comparison& comparison, const Change& change) const
{
    return telling::sentence(telling::strengthWords(comparison, change, m_catalogue, m_phrases), m_phrases);
}

QString Sentences::ofBaseline(const Change& change) const
{
    const auto& earlier = earlierOf(change);
    if (!earlier || !change.baseline || change.baseline->reference.visit == earlier->reference.visit)
        return {};
    const Comparison& first = *change.baseline;
    const auto& trend = change.course.trend;
    const bool hasTrend = trend && (trend->direction || trend->former || trend->reversal);
    if (first.verdict == earlier->verdict && first.strength <= earlier->strength && !hasTrend)
        return {};
    const auto filled = [&](const QString& words) {
        return words.arg(title(change), value(change, first.reference),
                         records::dayInWords(first.reference.day, m_phrases),
                         telling::verdictWords(first, m_phrases));
    };
    if (first.verdict == Verdict::BecameUnable || first.verdict == Verdict::BecameAble)
        return filled(m_phrases("%1: against the first comparable visit (%2 on %3) it %4."));
    const bool isBeyond = isBeyondError(first.verdict);
    if (!isBeyond && !hasTrend)
        return {};
    const QString sentence =
        isBeyond && first.threshold
            ? m_phrases("%1: against the first comparable visit (%2 on %3) it is %4; error: %5.")
                  .arg(title(change), value(change, first.reference),
                       records::dayInWords(first.reference.day, m_phrases),
                       telling::verdictWords(first, m_phrases), limit(first))
            : filled(m_phrases("%1: against the first comparable visit (%2 on %3) the difference is %4."));
    return m_phrases.joined("%1 %2", {sentence, ofStrength(first, change)});
}

/// The order in which verdicts are told; better and worse share a place.
int rankOf(Verdict verdict)
{
    switch (verdict) {
    case Verdict::BecameUnable:
        return 0;
    case Verdict::BecameAble:
        return 1;
    case Verdict::Better:
    case Verdict::Worse:
        return 2;
    case Verdict::StepBetter:
    case Verdict::StepWorse:
    case Verdict::Changed:
        return 3;
    case Verdict::WithinError:
        return 4;
    case Verdict::NotComparable:
        return 5;
    case Verdict::Same:
    case Verdict::NoThreshold:
        break;
    }
    return 6;
}

bool isAlike(const Change& change)
{
    const Comparison& comparison = *earlierOf(change);
    return comparison.now.finding.value == comparison.reference.finding.value;
}

} // namespace

QString suggestedInterpretation(const Material& material, const catalogue::Catalogue& catalogue,
                                const base::Phrasebook& phrases)
{
    const std::vector<Change> changes = changesOf(material, catalogue);
    const Sentences sentences(catalogue, phrases);
    QStringList lines, different, alike, first;
    bool hasBetter = false, hasWorse = false;
    for (int rank = 0; rank <= rankOf(Verdict::NoThreshold); ++rank) {
        for (const Change& change : changes) {
            if (!earlierOf(change)) {
                if (rank == 0)
                    first += sentences.title(change);
                continue;
            }
            const Verdict verdict = earlierOf(change)->verdict;
            if (rankOf(verdict) != rank)
                continue;
            hasBetter = hasBetter || verdict == Verdict::Better || verdict == Verdict::BecameAble;
            hasWorse = hasWorse || verdict == Verdict::Worse || verdict == Verdict::BecameUnable;
            if (verdict != Verdict::NoThreshold && verdict != Verdict::Same)
                lines += sentences.of(change);
            else if (isAlike(change))
                alike += sentences.title(change);
            else
                different += sentences.of(change);
            if (const QString since = sentences.ofBaseline(change); !since.isEmpty())
                lines += since;
        }
    }
    const auto inRow = [&phrases](const QStringList& texts) { return phrases.joined("%1; %2", texts); };
    if (hasBetter && hasWorse)
        lines += phrases(
            "The results point in different directions; none of them outweighs the others by itself.");
    if (!different.isEmpty())
        lines +=
            phrases(
                "Recorded otherwise than before, without a published error to judge the difference by: %1.")
                .arg(inRow(different));
    if (!alike.isEmpty())
        lines +=
            phrases("Recorded as before: %1. This does not show that nothing changed.").arg(inRow(alike));
    if (!first.isEmpty())
        lines += phrases("No earlier result to compare with: %1.").arg(inRow(first));
    if (lines.isEmpty())
        lines += phrases("This visit holds no result that can be compared with an earlier one.");
    return lines.join(u'\n');
}

} // namespace letters
