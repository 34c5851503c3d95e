#include "core/telling/terms.h"

#include "core/base/rounding.h"
#include "core/base/text.h"
#include "core/records/wording.h"
#include "core/statistics/reliability.h"

#include <QStringList>

#include <cmath>

namespace telling
{

namespace
{

using catalogue::Measure;
using catalogue::Scale;
using catalogue::Threshold;

constexpr int mostDecimals = 4;

int decimalsOf(const Measure& measure)
{
    const QString zero = records::written(0, measure);
    const qsizetype point = zero.indexOf(u'.');
    return point < 0 ? 0 : static_cast<int>(zero.size() - point - 1);
}

bool isRounded(double number, int decimals)
{
    const double shown = base::rounded(number, decimals);
    return values::exceeds(shown, number) || values::exceeds(number, shown);
}

QString brief(double number)
{
    return QString::number(number, 'g', 4);
}

} // namespace

QString amount(double number, const Measure& measure, const base::Phrasebook& phrases, int decimals)
{
    const int shown = decimalsOf(measure) + (isRounded(number, decimalsOf(measure)) ? 1 : 0) + decimals;
    return values::withUnit(base::fixed(number, shown), measure.unit, phrases);
}

QString signedAmount(double number, const Measure& measure, const base::Phrasebook& phrases, int decimals)
{
    const QString digits = base::fixed(std::abs(number), decimalsOf(measure) + decimals);
    const bool isNone = digits.toDouble() == 0;
    const QString sign = isNone ? QString() : number < 0 ? QStringLiteral("−") : QStringLiteral("+");
    return values::withUnit(sign + digits, measure.unit, phrases);
}

int tellingDecimals(double a, double b, const Measure& measure)
{
    if (!values::exceeds(a, b) && !values::exceeds(b, a))
        return 0;
    int more = 0;
    while (more < mostDecimals &&
           base::rounded(a, decimalsOf(measure) + more) == base::rounded(b, decimalsOf(measure) + more))
        ++more;
    return more;
}

QString publishedLimit(double limit, const Threshold& row, const Measure& measure,
                       const base::Phrasebook& phrases)
{
    switch (row.scale) {
    case Scale::Absolute:
        return amount(limit, measure, phrases);
    case Scale::PercentOfReference:
        return phrases("%1 %").arg(brief(limit));
    case Scale::ProportionalToMean:
        return phrases("%1 of the mean of both values").arg(brief(limit));
    case Scale::Log:
        return phrases("%1 between the natural logarithms").arg(brief(limit));
    }
    return {};
}

QString conversion(double published, const judging::Applied& threshold, const Measure& measure,
                   const base::Phrasebook& phrases)
{
    const Threshold& row = threshold.row;
    if (!threshold.isConverted || !row.confidence)
        return {};
    const double theirs = statistics::normalQuantile(*row.confidence).value_or(1);
    const double ours = statistics::normalQuantile(judging::judgedAt).value_or(1);
    return phrases("MDC%1 %2 × %3/%4 = %5 at 95 %")
        .arg(brief(*row.confidence * 100), publishedLimit(published, row, measure, phrases), brief(ours),
             brief(theirs), publishedLimit(published * ours / theirs, row, measure, phrases));
}

QString sourceWords(const Threshold& row, const catalogue::Catalogue& catalogue,
                    const base::Phrasebook& phrases)
{
    const catalogue::Source* source = catalogue.source(row.source);
    QStringList parts = {source != nullptr ? source->shortForm : row.source,
                         row.populationWords.isEmpty() ? populationWords(row.population, catalogue)
                                                       : row.populationWords};
    if (row.n)
        parts += phrases("n %1").arg(*row.n);
    if (row.isOwn)
        parts += phrases("the clinic's own");
    if (row.checked == catalogue::Checked::Memory)
        parts += phrases("from memory");
    return phrases.joined("%1, %2", parts);
}

QString populationWords(const QString& id, const catalogue::Catalogue& catalogue)
{
    const catalogue::Population* population = catalogue.population(id);
    return population != nullptr ? population->title : id;
}

QString mismatchWords(const judging::Mismatch& mismatch, const judging::Comparison& comparison,
                      const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases)
{
    const catalogue::Condition* condition = catalogue.condition(mismatch.condition);
    const QString title = conditionInSentence(mismatch.condition, catalogue);
    if (mismatch.before.isEmpty() && mismatch.now.isEmpty())
        return phrases("%1 was not recorded at either visit").arg(title);
    if (mismatch.isMissing()) {
        const QDate day = mismatch.before.isEmpty() ? comparison.reference.day : comparison.now.day;
        return phrases("%1 was not recorded on %2").arg(title, records::dayInWords(day, phrases));
    }
    return phrases("%1 was “%2”, now “%3”")
        .arg(title, conditionValueInSentence(mismatch.before, condition, phrases),
             conditionValueInSentence(mismatch.now, condition, phrases));
}

QString sentence(const QString& words, const base::Phrasebook& phrases)
{
    return words.isEmpty() ? words : phrases("%1.").arg(base::capitalised(words));
}

QString signsWords(const QStringList& signs, const catalogue::Measure& measure,
                   const base::Phrasebook& phrases)
{
    QStringList words;
    for (const QString& sign : signs) {
        const catalogue::Option* known = catalogue::optionOf(measure.watchFor, sign);
        words += known == nullptr ? sign : known->title;
    }
    return phrases.joined("%1, %2", words);
}

QString daysWords(double days, const base::Phrasebook& phrases)
{
    return phrases.counted("%1 day", "%1 days", days).arg(days);
}

} // namespace telling
