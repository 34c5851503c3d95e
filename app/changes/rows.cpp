#include "app/changes/rows.h"

#include "core/interpretation/terms.h"
#include "core/interpretation/wording.h"
#include "core/records/wording.h"

#include <QCoreApplication>
#include <QLocale>

#include <algorithm>
#include <cmath>

using namespace Qt::StringLiterals;

namespace changes
{

namespace
{

using interpretation::Comparison;
using interpretation::Verdict;

constexpr double falseFlagRate = 0.05; ///< of a threshold at 95 % confidence

struct Words {
    Q_DECLARE_TR_FUNCTIONS(changes::Rows)

public:
    static QString strip(const Strip& strip);
    static QString counted(Verdict verdict, qsizetype count);
    static QString byChance(double expected, qsizetype judged);
    static QString first() { return tr("first result, nothing to compare with"); }
    static QString absent() { return tr("not recorded at the reference visit"); }
};

QString Words::strip(const Strip& strip)
{
    if (!strip.verdict)
        return {};
    switch (*strip.verdict) {
    case Verdict::BecameUnable:
        return tr("event: able at the reference, unable at this visit");
    case Verdict::BecameAble:
        return tr("event: unable at the reference, able at this visit");
    case Verdict::NotComparable:
        return tr("not placed: the conditions do not match");
    case Verdict::Improved:
    case Verdict::Declined:
    case Verdict::WithinError:
    case Verdict::NoThreshold:
        break;
    }
    const QString times = QLocale().toString(std::abs(strip.position), 'f', 1);
    if (strip.hasScale && strip.position > 0)
        return tr("better by %1 times the limit of error").arg(times);
    if (strip.hasScale && strip.position < 0)
        return tr("worse by %1 times the limit of error").arg(times);
    if (strip.position > 0)
        return tr("better; the limit of error is not known");
    if (strip.position < 0)
        return tr("worse; the limit of error is not known");
    return strip.hasScale ? tr("no difference") : tr("no scale");
}

QString Words::counted(Verdict verdict, qsizetype count)
{
    switch (verdict) {
    case Verdict::Improved:
        return tr("improved beyond error: %1").arg(count);
    case Verdict::Declined:
        return tr("declined beyond error: %1").arg(count);
    case Verdict::WithinError:
        return tr("within error: %1").arg(count);
    case Verdict::NotComparable:
        return tr("not comparable: %1").arg(count);
    case Verdict::NoThreshold:
        return tr("no published threshold: %1").arg(count);
    case Verdict::BecameUnable:
        return tr("became unable: %1").arg(count);
    case Verdict::BecameAble:
        return tr("became able: %1").arg(count);
    }
    return {};
}

QString Words::byChance(double expected, qsizetype judged)
{
    return tr("If nothing had changed, measurement error alone would still flag about %1 of the %2 results "
              "judged "
              "by a threshold (5 % each).")
        .arg(QLocale().toString(expected, 'f', expected < 1 ? 2 : 1))
        .arg(judged);
}

const std::optional<Comparison>& chosen(const interpretation::Change& change, Against against)
{
    switch (against) {
    case Against::Previous:
        return change.previous;
    case Against::Baseline:
        return change.baseline;
    case Against::Chosen:
        break;
    }
    return change.chosen;
}

Row row(const interpretation::Change& change, Against against, const catalogue::Catalogue& catalogue,
        const catalogue::Measure& measure, const base::Phrasebook& phrases)
{
    Row made;
    const catalogue::Section* section = catalogue.section(measure.section);
    made.section = section != nullptr ? section->title : QString();
    made.measure = records::titled(measure, phrases);
    made.side = records::written(change.side, phrases);
    made.now = records::written(change.now.finding.value, measure, phrases);
    made.occasion = change.now;
    made.comparison = chosen(change, against);
    if (!made.comparison) {
        made.verdict = against == Against::Chosen && change.previous ? Words::absent() : Words::first();
        return made;
    }
    made.reference = records::written(made.comparison->reference.finding.value, measure, phrases);
    made.referenceDay = records::dayInWords(made.comparison->reference.day);
    if (made.comparison->difference)
        made.difference = interpretation::signedAmount(*made.comparison->difference, measure);
    made.verdict = interpretation::written(made.comparison->verdict, phrases);
    made.isUnjudged = made.comparison->verdict == Verdict::NoThreshold && !made.comparison->difference;
    made.strip = strip(*made.comparison, measure.better);
    made.stripWords = Words::strip(made.strip);
    return made;
}

qsizetype count(const std::vector<Row>& rows, Verdict verdict)
{
    return std::ranges::count_if(
        rows, [&](const Row& each) { return each.comparison && each.comparison->verdict == verdict; });
}

} // namespace

std::vector<Row> rows(const std::vector<interpretation::Change>& changes, Against against,
                      const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases)
{
    std::vector<Row> made;
    for (const interpretation::Change& change : changes) {
        if (const catalogue::Measure* measure = catalogue.measure(change.measure))
            made.push_back(row(change, against, catalogue, *measure, phrases));
    }
    return made;
}

QString tally(const std::vector<Row>& rows)
{
    QStringList parts;
    for (const Verdict verdict :
         {Verdict::BecameUnable, Verdict::BecameAble, Verdict::Improved, Verdict::Declined,
          Verdict::WithinError, Verdict::NotComparable, Verdict::NoThreshold}) {
        const qsizetype found = count(rows, verdict);
        const bool isAlwaysSaid = verdict == Verdict::Improved || verdict == Verdict::Declined;
        if (found > 0 || isAlwaysSaid)
            parts << Words::counted(verdict, found);
    }
    QString sentence = parts.join(u"  ·  "_s);
    sentence[0] = sentence[0].toUpper();
    return sentence;
}

QString expectedByChance(const std::vector<Row>& rows)
{
    const qsizetype judged =
        count(rows, Verdict::Improved) + count(rows, Verdict::Declined) + count(rows, Verdict::WithinError);
    return judged < 2 ? QString() : Words::byChance(falseFlagRate * double(judged), judged);
}

} // namespace changes
