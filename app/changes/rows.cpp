#include "app/changes/rows.h"

#include "app/session/messages.h"
#include "core/base/rounding.h"
#include "core/records/wording.h"
#include "core/telling/terms.h"
#include "core/telling/wording.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <functional>

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
    static QString strip(const Strip& strip);
    static QString heldBack() { return tr("not beyond the screen's bound"); }
    static QString flagged(Verdict verdict)
    {
        return verdict == Verdict::Better ? tr("better") : tr("worse");
    }
    static QString absent(const judging::Change& change, Against against);
    static QString own(const Comparison& comparison);
    static QString ofTrend(const judging::Trend& trend);
    static QString ofReversal(const judging::Reversal& reversal);
    static QString inCourse(const Comparison& comparison, const judging::Course& course);
};

QString RowsWords::strip(const Strip& strip)
{
    if (!strip.verdict)
        return {};
    switch (*strip.verdict) {
    case Verdict::BecameUnable:
        return tr("event: able at the reference visit, unable at this one");
    case Verdict::BecameAble:
        return tr("event: unable at the reference visit, able at this one");
    case Verdict::NotComparable:
        return tr("not placed: the conditions do not match");
    case Verdict::Better:
    case Verdict::Worse:
    case Verdict::WithinError:
    case Verdict::StepBetter:
    case Verdict::StepWorse:
    case Verdict::Changed:
    case Verdict::Same:
    case Verdict::NoThreshold:
        break;
    }
    const QString times = base::fixed(std::abs(strip.position), 1);
    if (strip.hasScale && strip.position > 0)
        return tr("better by %1 times the threshold of error").arg(times);
    if (strip.hasScale && strip.position < 0)
        return tr("worse by %1 times the threshold of error").arg(times);
    if (strip.position > 0)
        return tr("better; the threshold of error is not known");
    if (strip.position < 0)
        return tr("worse; the threshold of error is not known");
    return strip.hasScale ? tr("no difference") : tr("no scale");
}

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
    case Against::Previous:
    case Against::Baseline:
        break;
    }
    return {};
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

Row row(const judging::Change& change, Against against, const catalogue::Catalogue& catalogue,
        const catalogue::Measure& measure, const base::Phrasebook& phrases)
{
    Row made;
    const catalogue::Section* section = catalogue.section(measure.section);
    made.section = section != nullptr ? section->title : QString();
    made.measure = records::titled(measure, phrases);
    made.side = records::written(change.side, phrases);
    made.now = records::written(change.now.finding.value, measure, phrases);
    made.occasion = change.now;
    made.change = change;
    made.comparison = comparisonWith(change, against);
    if (!made.comparison) {
        made.verdict = RowsWords::absent(change, against);
        return made;
    }
    made.reference = records::written(made.comparison->reference.finding.value, measure, phrases);
    made.referenceDay = records::dayInWords(made.comparison->reference.day, phrases);
    if (made.comparison->difference)
        made.difference = telling::signedAmount(*made.comparison->difference, measure, phrases);
    made.verdict = telling::verdictWords(*made.comparison, phrases);
    made.strength = strengthWord(*made.comparison, change.course);
    made.isUnjudged = made.comparison->verdict == Verdict::Same ||
                      (made.comparison->verdict == Verdict::NoThreshold && !made.comparison->difference);
    made.strip = strip(*made.comparison, measure.better);
    made.stripWords = RowsWords::strip(made.strip);
    return made;
}

} // namespace

const std::optional<Comparison>& comparisonWith(const judging::Change& change, Against against)
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
        break;
    }
    return change.chosen;
}

QString strengthWord(const Comparison& comparison, const judging::Course& course)
{
    return RowsWords::inCourse(comparison, course);
}

bool isFlag(const Row& row)
{
    return row.comparison && judging::isBeyondError(row.comparison->verdict);
}

QString qualified(const Row& row)
{
    QStringList words;
    if (!row.strength.isEmpty())
        words << row.strength;
    if (row.isHeldBack)
        words << RowsWords::heldBack();
    return session::joined("%1, %2", words);
}

Meaning shortMeaning(const Row& row)
{
    if (row.isHeldBack)
        return {RowsWords::flagged(row.comparison->verdict), RowsWords::heldBack()};
    return {row.verdict, row.strength};
}

std::vector<Row> rows(const std::vector<judging::Change>& changes, Against against,
                      const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases)
{
    std::vector<Row> made;
    for (const judging::Change& change : changes) {
        if (const catalogue::Measure* measure = catalogue.measure(change.measure))
            made.push_back(row(change, against, catalogue, *measure, phrases));
    }
    return made;
}

} // namespace changes
