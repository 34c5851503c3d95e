#include "core/letters/plain_page.h"

#include "core/base/text.h"
#include "core/letters/first_page.h"
#include "core/records/normal.h"
#include "core/records/wording.h"

#include <array>

namespace letters
{

namespace
{

using base::Phrasebook;
using catalogue::Measure;
using judging::Change;
using judging::Outcome;
using judging::OutcomeKind;
using judging::Verdict;
using values::Unit;

constexpr qsizetype mostPlainNumbers = 6;
constexpr qsizetype mostNamed = 6; ///< of what was seen, in one sentence

/// "12.3 seconds"
QString plainValue(const values::Value& value, const Measure& measure, const Phrasebook& phrases)
{
    const auto* quantity = std::get_if<values::Quantity>(&value);
    if (quantity == nullptr)
        return records::written(value, measure, phrases);
    const QString number = records::written(quantity->number, measure);
    switch (quantity->unit) {
    case Unit::Second:
        return phrases("%1 seconds").arg(number);
    case Unit::Metre:
        return phrases("%1 metres").arg(number);
    case Unit::Centimetre:
        return phrases("%1 centimetres").arg(number);
    case Unit::MetrePerSecond:
        return phrases("%1 metres per second").arg(number);
    case Unit::StepsPerMinute:
        return phrases("%1 steps a minute").arg(number);
    case Unit::Percent:
        return phrases("%1 percent").arg(number);
    case Unit::Kilogram:
        return phrases("%1 kilograms").arg(number);
    case Unit::One:
    case Unit::Count:
    case Unit::Steps:
    case Unit::Score:
        break;
    }
    return records::written(value, measure, phrases);
}

class PlainTeller
{
public:
    PlainTeller(const Material& material, const judging::Glance& glance,
                const catalogue::Catalogue& catalogue, const Phrasebook& phrases)
        : m_material(material), m_glance(glance), m_catalogue(catalogue), m_phrases(phrases)
    {
    }

    QStringList told()
    {
        for (const size_t place : m_glance.order) {
            const Change& change = m_glance.changes[place];
            const Measure* measure = toldOf(change);
            if (measure == nullptr)
                continue;
            if (!catalogue::isNumeric(measure->kind))
                addSeen(change, m_glance.outcomes[place], *measure);
            else if (m_numbers.size() < mostPlainNumbers && !isSaidByAnother(*measure, m_glance, m_catalogue))
                m_numbers += ofNumber(change, m_glance.outcomes[place], *measure);
        }
        const QStringList told = m_numbers + seen();
        return told.isEmpty() ? told : counted() + told;
    }

private:
    /// What the letter may tell of: that has plain words and was not left out; nullptr for another.
    const Measure* toldOf(const Change& change) const
    {
        const Measure* measure = m_catalogue.measure(change.measure);
        const bool isTold = measure != nullptr && !measure->plainly.isEmpty() &&
                            !m_material.letter.leftOut.contains(keyOf(change.measure, change.side));
        return isTold ? measure : nullptr;
    }

    /// "How long you stand on one leg, on the right"
    QString named(const Measure& measure, records::Side side) const
    {
        if (side == records::Side::Right)
            return m_phrases("%1, on the right").arg(measure.plainly);
        if (side == records::Side::Left)
            return m_phrases("%1, on the left").arg(measure.plainly);
        return measure.plainly;
    }

    QString ofNumber(const Change& change, const Outcome& outcome, const Measure& measure) const
    {
        const QString name = base::capitalised(named(measure, change.side));
        const QString now = plainValue(change.now.finding.value, measure, m_phrases);
        const judging::Comparison* held = judging::decidingOf(change);
        if (held == nullptr)
            return values::isUnable(change.now.finding.value)
                       ? m_phrases("%1: you could not do this at this visit.").arg(name)
                       : m_phrases("%1: %2. This is your first result.").arg(name, now);
        const QString before = plainValue(held->reference.finding.value, measure, m_phrases);
        const QString day = plainDay(held->reference.day, m_phrases);
        const QString both = m_phrases("%1: %2 now, %3 on %4.").arg(name, now, before, day);
        switch (outcome.kind) {
        case OutcomeKind::BecameUnable:
            return m_phrases("%1: you could not do this at this visit. On %2 it was %3.")
                .arg(name, day, before);
        case OutcomeKind::BecameAble:
            return m_phrases("%1: %2 now. On %3 you could not do this.").arg(name, now, day);
        case OutcomeKind::Worse:
            return m_phrases.joined(
                "%1 %2",
                {both, outcome.isSure ? m_phrases("This has become worse, by more than chance can explain.")
                                      : m_phrases("This may have become worse, but it could be chance.")});
        case OutcomeKind::Better:
            return m_phrases.joined(
                "%1 %2",
                {both, outcome.isSure ? m_phrases("This has become better, by more than chance can explain.")
                                      : m_phrases("This may have become better, but it could be chance.")});
        case OutcomeKind::StepWorse:
            return m_phrases.joined(
                "%1 %2",
                {both, m_phrases("This is less good than before; how much of it is chance is not known.")});
        case OutcomeKind::StepBetter:
            return m_phrases.joined(
                "%1 %2",
                {both, m_phrases("This is better than before; how much of it is chance is not known.")});
        case OutcomeKind::NotCompared:
            return m_phrases("%1: %2 now. It cannot be compared with earlier results, because the test was "
                             "not done in the same way.")
                .arg(name, now);
        case OutcomeKind::Changed:
        case OutcomeKind::AsBefore:
        case OutcomeKind::First:
            break;
        }
        if (change.now.finding.value == held->reference.finding.value)
            return m_phrases.joined("%1 %2", {both, m_phrases("That is the same.")});
        return m_phrases.joined(
            "%1 %2", {both, held->verdict == Verdict::WithinError
                                ? m_phrases("The difference is small enough to be chance.")
                                : m_phrases("How much of the difference is chance is not known.")});
    }

    /// What all of it comes to, each side for itself.
    QStringList counted() const
    {
        int better = 0;
        int worse = 0;
        for (const size_t place : m_glance.order) {
            const Measure* measure = toldOf(m_glance.changes[place]);
            if (measure == nullptr || isSaidByAnother(*measure, m_glance, m_catalogue))
                continue;
            const auto way = judging::wayOf(m_glance.outcomes[place], m_glance.changes[place], *measure);
            better += int(way == Verdict::Better);
            worse += int(way == Verdict::Worse);
        }
        if (!m_glance.hasEarlier())
            return {};
        if (better == 0 && worse == 0)
            return {m_phrases("No result is clearly better or less good than before.")};
        QStringList sentences;
        if (worse > 0)
            sentences += m_phrases
                             .counted("%1 result is less good than before.",
                                      "%1 results are less good than before.", worse)
                             .arg(worse);
        if (better > 0)
            sentences +=
                m_phrases
                    .counted("%1 result is better than before.", "%1 results are better than before.", better)
                    .arg(better);
        return {m_phrases.joined("%1 %2", sentences)};
    }

    /// One side; both where the other is there already.
    void name(QStringList& names, const Measure& measure, records::Side side) const
    {
        const records::Side other = side == records::Side::Right ? records::Side::Left : records::Side::Right;
        const qsizetype there = names.indexOf(named(measure, other));
        if (side != records::Side::None && there >= 0)
            names[there] = measure.plainly;
        else
            names += named(measure, side);
    }

    void addSeen(const Change& change, const Outcome& outcome, const Measure& measure)
    {
        const auto way = judging::wayOf(outcome, change, measure);
        const auto normal = records::normalValue(measure);
        if (way == Verdict::Worse)
            name(m_worse, measure, change.side);
        else if (way == Verdict::Better)
            name(m_better, measure, change.side);
        else if (normal && change.now.finding.value == *normal)
            ++m_expected;
        else
            name(m_affected, measure, change.side);
    }

    QStringList seen() const
    {
        QStringList sentences;
        const auto add = [&](const QString& words, const QStringList& names) {
            if (names.isEmpty())
                return;
            const qsizetype more = names.size() - mostNamed;
            QStringList told = names.first(std::min(names.size(), mostNamed));
            if (more > 0)
                told += m_phrases.counted("%1 more", "%1 more", double(more)).arg(more);
            sentences += words.arg(m_phrases.joined("%1; %2", told));
        };
        add(m_phrases("These have become less good: %1."), m_worse);
        add(m_phrases("These have become better: %1."), m_better);
        add(m_phrases("These are affected, much as before: %1."), m_affected);
        if (m_expected > 0)
            sentences += m_phrases
                             .counted("%1 other test was as it should be.",
                                      "%1 other tests were as they should be.", m_expected)
                             .arg(m_expected);
        return sentences;
    }

    const Material& m_material;
    const judging::Glance& m_glance;
    const catalogue::Catalogue& m_catalogue;
    const Phrasebook& m_phrases;
    QStringList m_numbers;
    QStringList m_worse;
    QStringList m_better;
    QStringList m_affected;
    int m_expected = 0;
};

} // namespace

QString plainDay(const QDate& day, const Phrasebook& phrases)
{
    const std::array months = {
        phrases("%1 January %2"), phrases("%1 February %2"), phrases("%1 March %2"),
        phrases("%1 April %2"),   phrases("%1 May %2"),      phrases("%1 June %2"),
        phrases("%1 July %2"),    phrases("%1 August %2"),   phrases("%1 September %2"),
        phrases("%1 October %2"), phrases("%1 November %2"), phrases("%1 December %2")};
    return months.at(size_t(day.month() - 1)).arg(day.day()).arg(day.year());
}

QStringList plainSentences(const Material& material, const catalogue::Catalogue& catalogue,
                           const Phrasebook& phrases)
{
    const auto glance = glanceOf(material, catalogue);
    return glance ? PlainTeller(material, *glance, catalogue, phrases).told() : QStringList();
}

} // namespace letters
