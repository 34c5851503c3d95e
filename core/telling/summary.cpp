#include "core/telling/summary.h"

#include "core/base/text.h"
#include "core/records/patient.h"
#include "core/records/wording.h"
#include "core/telling/outcome_words.h"
#include "core/telling/target_words.h"
#include "core/telling/terms.h"

#include <algorithm>
#include <map>

namespace telling
{

namespace
{

using base::Phrasebook;
using catalogue::Measure;
using judging::Change;
using judging::Outcome;
using judging::OutcomeKind;

/// A result of the glance with its measure.
struct Result {
    const Change& change;
    const Outcome& outcome;
    const Measure& measure;
};

/// One result that is told, perhaps for both sides.
struct Chosen {
    const Result* result = nullptr;
    bool isOfBothSides = false;
};

bool isTurn(const Result& result)
{
    return result.outcome.kind == OutcomeKind::BecameUnable || result.outcome.kind == OutcomeKind::BecameAble;
}

bool isOtherChange(const Result& result)
{
    const bool isStep =
        result.outcome.kind == OutcomeKind::StepWorse || result.outcome.kind == OutcomeKind::StepBetter;
    return result.outcome.kind == OutcomeKind::Changed ||
           (isStep && result.measure.kind == catalogue::Kind::Grade &&
            !isOneStep(result.outcome, result.measure));
}

class LineTeller
{
public:
    LineTeller(const judging::Glance& glance, const catalogue::Catalogue& catalogue,
               const Phrasebook& phrases, qsizetype named)
        : m_glance(glance), m_catalogue(catalogue), m_phrases(phrases), m_named(named)
    {
        for (const size_t place : glance.order) {
            if (const Measure* measure = catalogue.measure(glance.changes[place].measure))
                m_results.push_back({glance.changes[place], glance.outcomes[place], *measure});
        }
    }

    void tellDirection(LineKind kind, OutcomeKind direction, const QString& label)
    {
        const auto isSure = [&](const Result& each) {
            return each.outcome.kind == direction && each.outcome.isSure;
        };
        const auto isUnsure = [&](const Result& each) {
            return each.outcome.kind == direction && !each.outcome.isSure;
        };
        const QString unsure = byStrength(isUnsure);
        const QString byChance =
            m_phrases
                .counted("which could be chance with %1 result judged: %2",
                         "which could be chance with %1 results judged: %2", double(judged()))
                .arg(QString::number(judged()), unsure);
        SummaryLine line =
            lineOf(kind, label, [&](const Result& each) { return each.outcome.kind == direction; });
        line.text = m_phrases.joined("%1; %2", {byStrength(isSure), unsure.isEmpty() ? QString() : byChance});
        add(std::move(line));
    }

    void tellChanged()
    {
        SummaryLine line = lineOf(LineKind::Changed, changedLabel(),
                                  [](const Result& each) { return isTurn(each) || isOtherChange(each); });
        line.text = m_phrases.joined("%1 · %2",
                                     {turns(OutcomeKind::BecameUnable), turns(OutcomeKind::BecameAble),
                                      toldOf(isOtherChange), line.measures.isEmpty() ? QString() : steps()});
        add(std::move(line));
    }

    void tellNotCompared()
    {
        const auto isNotCompared = [](const Result& each) {
            return each.outcome.kind == OutcomeKind::NotCompared;
        };
        QStringList reasons;
        QMap<QString, QStringList> names;
        for (const Chosen& each : chosen(isNotCompared)) {
            const judging::Comparison& held = *judging::decidingOf(each.result->change);
            const QString reason =
                mismatchWords(held.comparability.blocking.front(), held, m_catalogue, m_phrases);
            if (!names.contains(reason))
                reasons += reason;
            names[reason] += records::titled(each.result->measure, m_phrases);
        }
        QStringList parts;
        for (const QString& reason : reasons)
            parts += m_phrases("%1: %2").arg(reason, inARow(names[reason]));
        SummaryLine line = lineOf(LineKind::NotCompared, m_phrases("Not compared"), isNotCompared);
        line.text = inARow(parts);
        add(std::move(line));
    }

    void tellMissing()
    {
        SummaryLine line{LineKind::Missing, m_phrases("Missing"), {}, 0, {}, {}};
        QStringList parts;
        for (const judging::Lacking& each : m_glance.lacking) {
            const Measure* measure = m_catalogue.measure(each.measure);
            if (measure == nullptr || line.measures.contains(each.measure))
                continue;
            line.measures += each.measure;
            const QString title = records::titled(*measure, m_phrases);
            parts += each.why ? m_phrases("%1 (%2)").arg(title, reasonOf(*each.why)) : title;
        }
        line.text = inARow(parts);
        add(std::move(line));
    }

    std::vector<SummaryLine> lines() const
    {
        const bool isNew = std::ranges::any_of(m_lines, [](const SummaryLine& line) {
            return line.kind != LineKind::NotCompared && line.kind != LineKind::Missing;
        });
        std::vector<SummaryLine> all = m_lines;
        const bool isFirst = !m_glance.hasEarlier();
        if (!isNew && !m_glance.changes.empty())
            all.insert(all.begin(),
                       {LineKind::NothingNew,
                        isFirst ? m_phrases("First results") : m_phrases("As before"),
                        base::capitalised(isFirst ? m_phrases("nothing to compare with yet") : nothingNew()),
                        0,
                        {},
                        {}});
        return all;
    }

    std::vector<SummaryLine> withTargets(const std::vector<judging::TargetProgress>& targets) const
    {
        std::vector<SummaryLine> all = lines();
        const auto better = std::ranges::find(all, LineKind::Better, &SummaryLine::kind);
        std::map<SummaryLine*, QStringList> parts;
        for (const judging::TargetProgress& target : targets) {
            const Measure* measure = m_catalogue.measure(target.target.measure);
            if (measure == nullptr)
                continue;
            const bool isBetter = target.state == judging::TargetState::ReachedBeyondError;
            SummaryLine& line = isBetter && better != all.end() ? *better : all.front();
            parts[&line] += targetPart(target, *measure, m_phrases);
            if (line.measures.contains(measure->id))
                continue;
            line.measures += measure->id;
            line.results += int(std::ranges::count_if(
                m_results, [&](const Result& each) { return each.measure.id == measure->id; }));
        }
        for (const auto& [line, told] : parts)
            line->text = m_phrases.joined("%1 · %2", {line->text, inARow(told)});
        return all;
    }

private:
    template <typename Chooses>
    SummaryLine lineOf(LineKind kind, const QString& label, Chooses chooses) const
    {
        SummaryLine line{kind, label, {}, 0, {}, {}};
        for (const Result& result : m_results) {
            if (!chooses(result))
                continue;
            ++line.results;
            if (!line.measures.contains(result.measure.id))
                line.measures += result.measure.id;
            if (!line.since)
                line.since = result.outcome.since;
        }
        return line;
    }

    void add(SummaryLine line)
    {
        line.text = base::capitalised(line.text);
        if (!line.text.isEmpty())
            m_lines.push_back(std::move(line));
    }

    qsizetype judged() const
    {
        return std::ranges::count_if(m_results,
                                     [](const Result& each) { return each.outcome.chance.has_value(); });
    }

    /// The first few, and how many more.
    QStringList shortened(const QStringList& parts) const
    {
        const qsizetype more = parts.size() - m_named;
        if (more <= 0)
            return parts;
        return parts.first(m_named) +
               QStringList{m_phrases.counted("and %1 more", "and %1 more", double(more)).arg(more)};
    }

    QString inARow(const QStringList& parts) const { return m_phrases.joined("%1 · %2", shortened(parts)); }

    /// Each of them once: one side stands for both where they come to the same, and what is worked out of
    /// another of them goes without saying.
    template <typename Chooses>
    std::vector<Chosen> chosen(Chooses chooses) const
    {
        std::vector<const Result*> all;
        for (const Result& result : m_results) {
            if (chooses(result))
                all.push_back(&result);
        }
        const auto sidesOf = [&](const QString& id) {
            return std::ranges::count_if(all, [&](const Result* each) { return each->measure.id == id; });
        };
        std::vector<Chosen> once;
        QStringList done;
        for (const Result* result : all) {
            const auto& computed = result->measure.computed;
            const bool isOfAnother = computed && std::ranges::any_of(computed->parts, sidesOf);
            if (isOfAnother || done.contains(result->measure.id))
                continue;
            done += result->measure.id;
            once.push_back({result, sidesOf(result->measure.id) > 1});
        }
        return once;
    }

    QString told(const Chosen& each) const
    {
        return telling::told(each.result->outcome, each.result->change, each.result->measure,
                             each.isOfBothSides, m_phrases);
    }

    template <typename Chooses>
    QString toldOf(Chooses chooses) const
    {
        QStringList parts;
        for (const Chosen& each : chosen(chooses))
            parts += told(each);
        return inARow(parts);
    }

    /// "sustained over 7 visits since 12-Mar-2024: A · B; seen once: C"
    template <typename Chooses>
    QString byStrength(Chooses chooses) const
    {
        struct Alike {
            const Result* first = nullptr;
            judging::Claim claim;
            QDate until;
            QStringList parts;
        };
        std::vector<Alike> groups;
        for (const Chosen& each : chosen(chooses)) {
            const judging::Claim& claim = *each.result->outcome.claim;
            const auto group = std::ranges::find_if(groups, [&](const Alike& known) {
                return known.claim.strength == claim.strength &&
                       (known.claim.by == judging::Says::Reversal) == (claim.by == judging::Says::Reversal);
            });
            if (group == groups.end()) {
                groups.push_back({each.result, claim, claim.since, {told(each)}});
                continue;
            }
            group->claim.since = std::min(group->claim.since, claim.since);
            group->until = std::max(group->until, claim.since);
            group->parts += told(each);
        }
        QStringList told;
        for (const Alike& group : groups)
            told += m_phrases("%1: %2").arg(
                strengthWords(group.claim, group.first->change, group.until, m_phrases), inARow(group.parts));
        return m_phrases.joined("%1; %2", told);
    }

    /// "became unable: Timed up and go, Gait speed (since 10-Nov-2026)", a part for each day.
    QString turns(OutcomeKind kind) const
    {
        std::vector<QDate> days;
        QMap<QDate, QStringList> names;
        for (const Result& result : m_results) {
            if (result.outcome.kind != kind || result.measure.computed)
                continue;
            if (!names.contains(*result.outcome.since))
                days.push_back(*result.outcome.since);
            names[*result.outcome.since] += records::sidedTitle(records::titled(result.measure, m_phrases),
                                                                result.change.side, m_phrases);
        }
        QStringList parts;
        for (const QDate& day : days) {
            const QString those = m_phrases.joined("%1, %2", shortened(names[day]));
            const QString since = records::dayInWords(day, m_phrases);
            parts += (kind == OutcomeKind::BecameUnable ? m_phrases("became unable: %1 (since %2)")
                                                        : m_phrases("became able: %1 (since %2)"))
                         .arg(those, since);
        }
        return m_phrases.joined("%1 · %2", parts);
    }

    /// Which way what changed goes, where none of it goes the other way.
    QString changedLabel() const
    {
        int worse = 0;
        int better = 0;
        for (const Result& result : m_results) {
            if (!isTurn(result) && !isOtherChange(result) && !isOneStep(result.outcome, result.measure))
                continue;
            const auto way = judging::wayOf(result.outcome, result.change, result.measure);
            worse += int(way == judging::Verdict::Worse);
            better += int(way == judging::Verdict::Better);
        }
        if (better == 0 && worse > 0)
            return m_phrases("Changed for the worse");
        if (worse == 0 && better > 0)
            return m_phrases("Changed for the better");
        return m_phrases("Changed");
    }

    QString reasonOf(const values::Missing& missing) const
    {
        const QString why = records::written(missing.why, m_phrases);
        return missing.reason.isEmpty() ? why : m_phrases("%1: %2").arg(why, missing.reason);
    }

    QString steps() const
    {
        const auto count = [&](OutcomeKind kind) {
            return std::ranges::count_if(m_results, [&](const Result& each) {
                return each.outcome.kind == kind && isOneStep(each.outcome, each.measure);
            });
        };
        const auto worse = count(OutcomeKind::StepWorse);
        const auto better = count(OutcomeKind::StepBetter);
        return worse + better == 0 ? QString()
                                   : m_phrases("by one step, as examiners may differ: %1 worse, %2 better")
                                         .arg(worse)
                                         .arg(better);
    }

    QString nothingNew() const
    {
        const auto compared = std::ranges::count_if(m_results, [](const Result& each) {
            return each.outcome.kind != OutcomeKind::NotCompared && each.outcome.kind != OutcomeKind::First;
        });
        const QString same = m_phrases
                                 .counted("nothing beyond error in %1 result compared",
                                          "nothing beyond error in %1 results compared", double(compared))
                                 .arg(compared);
        return m_phrases.joined("%1 · %2", {same, steps()});
    }

    const judging::Glance& m_glance;
    const catalogue::Catalogue& m_catalogue;
    const Phrasebook& m_phrases;
    qsizetype m_named;             ///< of each part of a line
    std::vector<Result> m_results; ///< by weight
    std::vector<SummaryLine> m_lines;
};

} // namespace

QString code(LineKind kind)
{
    switch (kind) {
    case LineKind::Worse:
        return QStringLiteral("worse");
    case LineKind::Changed:
        return QStringLiteral("changed");
    case LineKind::Better:
        return QStringLiteral("better");
    case LineKind::NotCompared:
        return QStringLiteral("not-compared");
    case LineKind::Missing:
        return QStringLiteral("missing");
    case LineKind::NothingNew:
        break;
    }
    return QStringLiteral("nothing-new");
}

std::vector<SummaryLine> summary(const judging::Glance& glance, const catalogue::Catalogue& catalogue,
                                 const Phrasebook& phrases,
                                 const std::vector<judging::TargetProgress>& targets, qsizetype named)
{
    if (glance.changes.empty() && glance.lacking.empty())
        return {};
    LineTeller teller(glance, catalogue, phrases, named);
    teller.tellDirection(LineKind::Worse, OutcomeKind::Worse, phrases("Worse"));
    teller.tellChanged();
    teller.tellDirection(LineKind::Better, OutcomeKind::Better, phrases("Better"));
    teller.tellNotCompared();
    teller.tellMissing();
    return teller.withTargets(targets);
}

} // namespace telling
