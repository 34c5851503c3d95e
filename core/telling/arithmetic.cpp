#include "core/base/rounding.h"
#include "core/records/wording.h"
#include "core/telling/row_words.h"
#include "core/telling/terms.h"
#include "core/telling/wording.h"

#include <cmath>

namespace telling
{

namespace
{

using base::Phrasebook;
using catalogue::Measure;
using catalogue::Scale;

/// The numbers of one comparison, named for its steps.
struct Sum {
    const judging::Comparison& held;
    const Measure& measure;
    const Phrasebook& phrases;
    double reference = 0;
    double now = 0;

    QString written(double number) const { return records::written(number, measure); }
};

QString difference(const Sum& sum)
{
    return sum.phrases("Difference: %1 − %2 = %3 (%4 against %5)")
        .arg(sum.written(sum.now), sum.written(sum.reference),
             signedAmount(*sum.held.difference, sum.measure, sum.phrases),
             records::dayInWords(sum.held.now.day, sum.phrases),
             records::dayInWords(sum.held.reference.day, sum.phrases));
}

QString limitOnScale(const judging::Applied& threshold, const Sum& sum)
{
    const double side = threshold.publishedFor(*sum.held.difference, sum.measure.better);
    const QString published = publishedLimit(side, threshold.row, sum.measure, sum.phrases);
    if (!threshold.row.confidence || !threshold.row.basis)
        return sum.phrases("Threshold: %1, as published").arg(published);
    return sum.phrases("Threshold: %1 at %2 % confidence (%3)")
        .arg(published, QString::number(*threshold.row.confidence * 100),
             basisWords(*threshold.row.basis, sum.phrases));
}

/// How the limit on its own scale becomes a difference in the measure's unit. Empty for an absolute limit.
QString limitInUnit(const judging::Applied& threshold, const Sum& sum)
{
    const double limit = threshold.limitFor(*sum.held.difference, sum.measure.better) / threshold.factor;
    const QString inUnit = amount(limit, sum.measure, sum.phrases);
    switch (threshold.row.scale) {
    case Scale::Absolute:
        break;
    case Scale::PercentOfReference:
        return sum.phrases("Of the value %1 at the reference visit: %2")
            .arg(amount(sum.reference, sum.measure, sum.phrases), inUnit);
    case Scale::ProportionalToMean:
        return sum.phrases("Of the mean of %1 and %2: %3")
            .arg(sum.written(sum.reference), sum.written(sum.now), inUnit);
    case Scale::Log:
        return sum.phrases("From the value %1 at the reference visit: %2")
            .arg(amount(sum.reference, sum.measure, sum.phrases), inUnit);
    }
    return {};
}

QString narrowed(const judging::Applied& threshold, const Sum& sum)
{
    if (threshold.factor == 1)
        return {};
    const double limit = threshold.limitFor(*sum.held.difference, sum.measure.better);
    return sum.phrases("Means of trials or visits: × √((1/nb + 1/nc)/2) = %1: %2")
        .arg(base::fixed(threshold.factor, 2), amount(limit, sum.measure, sum.phrases));
}

QString decision(const Sum& sum)
{
    const double size = std::abs(*sum.held.difference);
    const double limit = sum.held.threshold->limitFor(*sum.held.difference, sum.measure.better);
    const int decimals = tellingDecimals(size, limit, sum.measure);
    QString sentence = sum.phrases("%1 = %2: %3");
    if (values::exceeds(size, limit))
        sentence = sum.phrases("%1 > %2: %3");
    else if (values::exceeds(limit, size))
        sentence = sum.phrases("%1 < %2: %3");
    return sentence.arg(amount(size, sum.measure, sum.phrases, decimals),
                        amount(limit, sum.measure, sum.phrases, decimals),
                        written(sum.held.verdict, sum.phrases));
}

/// The number against the mean of the earlier ones in their own scatter.
QStringList ownScatterSteps(const Sum& sum)
{
    const judging::OwnScatter& own = *sum.held.own;
    const auto inUnit = [&](double number) { return amount(number, sum.measure, sum.phrases); };
    QString decided = sum.phrases("|t| = %1 ≤ %2: %3");
    if (std::abs(own.t) > own.limit)
        decided = sum.phrases("|t| = %1 > %2: %3");
    return {sum.phrases("Mean of the %1 earlier comparable results: %2")
                .arg(QString::number(own.visits), inUnit(own.mean)),
            sum.phrases("Their scatter from visit to visit, of one result: %1 (%2 degrees of freedom)")
                .arg(inUnit(own.deviation), base::fixed(own.degrees, 1)),
            sum.phrases("t = (result − mean) / (scatter · √(1 + 1/%1)) = %2")
                .arg(QString::number(own.visits), base::fixed(own.t, 2)),
            decided.arg(base::fixed(std::abs(own.t), 2), base::fixed(own.limit, 2),
                        verdictWords(sum.held, sum.phrases))};
}

QStringList computations(const judging::Comparison& held, const Measure& measure, const Phrasebook& phrases)
{
    QStringList lines;
    for (const records::Occasion* occasion : {&held.reference, &held.now}) {
        if (!occasion->computedFrom.isEmpty())
            lines += phrases("%1: %2 from %3")
                         .arg(records::dayInWords(occasion->day, phrases),
                              records::written(occasion->finding.value, measure, phrases),
                              occasion->computedFrom.in(phrases));
    }
    return lines;
}

} // namespace

QStringList arithmetic(const judging::Comparison& comparison, const catalogue::Catalogue& catalogue,
                       const Phrasebook& phrases)
{
    const Measure* measure = catalogue.measure(comparison.measure);
    if (measure == nullptr)
        return {};
    QStringList lines = computations(comparison, *measure, phrases);
    if (!comparison.difference)
        return lines;
    const Sum sum{comparison, *measure, phrases, *values::number(comparison.reference.finding.value),
                  *values::number(comparison.now.finding.value)};
    lines += difference(sum);
    if (comparison.own)
        lines += ownScatterSteps(sum);
    if (!comparison.threshold)
        return lines;
    const judging::Applied& threshold = *comparison.threshold;
    const double side = threshold.publishedFor(*comparison.difference, measure->better);
    lines += {phrases("Row: %1").arg(whyThisRow(comparison, catalogue, phrases)),
              limitOnScale(threshold, sum),
              conversion(side, threshold, *measure, phrases),
              limitInUnit(threshold, sum),
              narrowed(threshold, sum),
              decision(sum)};
    lines.removeAll(QString());
    return lines;
}

} // namespace telling
