#include "app/changes/rows.h"

#include "app/session/messages.h"
#include "app/widgets/meaning.h"
#include "core/base/rounding.h"
#include "core/records/history.h"
#include "core/records/visit.h"
#include "core/records/wording.h"
#include "core/telling/terms.h"
#include "core/telling/wording.h"

#include <QCoreApplication>

#include <algorithm>
#include <functional>
#include <map>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

using judging::Comparison;
using judging::Strength;
using judging::Verdict;

struct RowsWords {
    Q_DECLARE_TR_FUNCTIONS(changes::Rows)

public:
    static QString absent(const judging::Change& change, Against against);
    static QString judgedBy(const Comparison& held, const catalogue::Catalogue& catalogue,
                            const base::Phrasebook& phrases);
    static QString own(const Comparison& comparison);
    static QString ofTrend(const judging::Trend& trend);
    static QString ofReversal(const judging::Reversal& reversal);
    static QString inCourse(const Comparison& comparison, const judging::Course& course);
};

QString RowsWords::absent(const judging::Change& change, Against against)
{
    if (!change.previous)
        return tr("first result, nothing to compare with");
    switch (against) {
    case Against::Best:
        return tr("no earlier number to be the best");
    case Against::LastConfirmed:
        return tr("none confirmed yet");
    case Against::Chosen:
        return tr("not recorded at the reference visit");
    case Against::Course:
    case Against::Previous:
    case Against::Baseline:
        break;
    }
    return {};
}

/// What judged it, or why nothing does.
QString RowsWords::judgedBy(const Comparison& held, const catalogue::Catalogue& catalogue,
                            const base::Phrasebook& phrases)
{
    if (!held.comparability.isComparable())
        return telling::mismatchWords(held.comparability.blocking.front(), held, catalogue, phrases);
    switch (held.tier) {
    case judging::Tier::Published:
        return held.threshold->row.n ? tr("published, n %1").arg(*held.threshold->row.n) : tr("published");
    case judging::Tier::Clinic:
        return tr("clinic's own");
    case judging::Tier::OwnScatter:
        return tr("own scatter, %n visit(s)", nullptr, held.own->visits + 1);
    case judging::Tier::Direction:
        return tr("direction only");
    case judging::Tier::None:
        break;
    }
    return tr("no error known");
}

QString RowsWords::own(const Comparison& comparison)
{
    switch (comparison.strength) {
    case Strength::SeenOnce:
        return tr("seen once");
    case Strength::Confirmed:
        return tr("confirmed");
    case Strength::TrendSeenOnce:
        return tr("trend, seen once");
    case Strength::Sustained:
        return tr("sustained");
    case Strength::None:
        break;
    }
    return {};
}

QString RowsWords::ofTrend(const judging::Trend& trend)
{
    const bool isSustained = trend.strength == Strength::Sustained;
    if (trend.direction == Verdict::Better)
        return isSustained ? tr("sustained improvement") : tr("trend better, seen once");
    return isSustained ? tr("sustained decline") : tr("trend worse, seen once");
}

QString RowsWords::ofReversal(const judging::Reversal& reversal)
{
    const bool isSustained = reversal.strength == Strength::Sustained;
    if (reversal.direction == Verdict::Better)
        return isSustained ? tr("sustained reversal for the better")
                           : tr("reversal for the better, seen once");
    return isSustained ? tr("sustained reversal for the worse") : tr("reversal for the worse, seen once");
}

/// A trend and a reversal that say otherwise are told beside it, the worse first.
QString RowsWords::inCourse(const Comparison& comparison, const judging::Course& course)
{
    const QString ofItself = own(comparison);
    const bool isTold = !ofItself.isEmpty() || comparison.verdict == Verdict::WithinError ||
                        comparison.verdict == Verdict::Same;
    if (!isTold || !course.trend)
        return ofItself;
    const judging::Trend& trend = *course.trend;
    std::vector<std::pair<bool, QString>> all = {{comparison.verdict == Verdict::Worse, ofItself}};
    if (trend.direction && trend.direction != judging::directionOf(comparison.verdict))
        all.emplace_back(trend.direction == Verdict::Worse, ofTrend(trend));
    if (trend.reversal && trend.reversal->direction != trend.direction)
        all.emplace_back(trend.reversal->direction == Verdict::Worse, ofReversal(*trend.reversal));
    std::ranges::stable_sort(all, std::greater<>(), &std::pair<bool, QString>::first);
    QStringList words;
    for (const auto& each : all)
        words += each.second;
    words.removeAll(QString());
    return session::joined("%1; %2", words);
}

/// The difference that decides.
QString differenceOf(const Row& row, Against against, const catalogue::Measure& measure,
                     const base::Phrasebook& phrases)
{
    const auto& claim = row.outcome.claim;
    if (against == Against::Course && claim && claim->by == judging::Says::Reversal) {
        const judging::Reversal& reversal = *row.change.course.trend->reversal;
        return telling::signedAmount(reversal.now - reversal.before, measure, phrases);
    }
    if (row.comparison->difference)
        return telling::signedAmount(*row.comparison->difference, measure, phrases);
    if (row.comparison->steps && *row.comparison->steps != 0)
        return telling::signedAmount(*row.comparison->steps, measure, phrases);
    return {};
}

class RowMaker
{
public:
    RowMaker(Against against, const judging::Ground& ground, const base::Phrasebook& phrases)
        : m_against(against), m_ground(ground), m_phrases(phrases)
    {
        records::eachHistory(ground.visits, ground.catalogue, {}, [this](const records::History& each) {
            m_histories[{each.measure, each.side}] = each.occasions;
        });
    }

    Row row(const judging::Change& change, const judging::Outcome& outcome, const catalogue::Measure& measure)
    {
        Row made;
        const catalogue::Section* section = m_ground.catalogue.section(measure.section);
        made.sectionId = measure.section;
        made.section = section != nullptr ? section->title : QString();
        made.measure = records::titled(measure, m_phrases);
        made.unit = measure.unit;
        made.side = records::written(change.side, m_phrases);
        made.now = records::written(change.now.finding.value, measure, m_phrases);
        made.occasion = change.now;
        made.change = change;
        made.outcome = outcome;
        made.course = charts::coursePoints(change, m_histories[{change.measure, change.side}], measure);
        made.comparison = comparisonWith(change, m_against);
        if (change.previous)
            made.previous = records::written(change.previous->reference.finding.value, measure, m_phrases);
        if (!made.comparison) {
            made.verdict = RowsWords::absent(change, m_against);
            return made;
        }
        made.reference = records::written(made.comparison->reference.finding.value, measure, m_phrases);
        made.referenceDay = records::dayInWords(made.comparison->reference.day, m_phrases);
        made.difference = differenceOf(made, m_against, measure, m_phrases);
        made.judgedBy = RowsWords::judgedBy(*made.comparison, m_ground.catalogue, m_phrases);
        if (m_against == Against::Course) {
            const widgets::Meaning meaning = widgets::meaningOf(outcome, change, m_phrases);
            made.verdict = meaning.words;
            made.mark = meaning.mark;
            made.quiet = meaning.quiet;
        } else {
            made.verdict = telling::verdictWords(*made.comparison, m_phrases);
            made.mark = made.comparison->verdict;
            made.quiet = strengthWord(*made.comparison, change.course);
        }
        return made;
    }

private:
    Against m_against;
    const judging::Ground& m_ground;
    const base::Phrasebook& m_phrases;
    std::map<std::pair<QString, records::Side>, std::vector<records::Occasion>> m_histories;
};

} // namespace

std::optional<Comparison> comparisonWith(const judging::Change& change, Against against)
{
    switch (against) {
    case Against::Previous:
        return change.previous;
    case Against::Baseline:
        return change.baseline;
    case Against::Best:
        return change.best;
    case Against::LastConfirmed:
        return change.lastConfirmed;
    case Against::Chosen:
        return change.chosen;
    case Against::Course:
        break;
    }
    const Comparison* deciding = judging::decidingOf(change);
    return deciding != nullptr ? std::optional(*deciding) : std::nullopt;
}

QString strengthWord(const Comparison& comparison, const judging::Course& course)
{
    return RowsWords::inCourse(comparison, course);
}

std::vector<Row> rows(const judging::Glance& glance, Against against, const judging::Ground& ground,
                      const base::Phrasebook& phrases)
{
    RowMaker maker(against, ground, phrases);
    std::vector<Row> made;
    for (size_t place = 0; place < glance.changes.size(); ++place) {
        const judging::Change& change = glance.changes[place];
        if (const catalogue::Measure* measure = ground.catalogue.measure(change.measure))
            made.push_back(maker.row(change, glance.outcomes[place], *measure));
    }
    return made;
}

} // namespace changes
