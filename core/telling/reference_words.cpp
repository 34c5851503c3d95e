#include "core/telling/reference_words.h"

#include "core/telling/terms.h"

#include <cmath>

namespace telling
{

namespace
{

using base::Phrasebook;
using catalogue::Band;
using catalogue::Catalogue;
using catalogue::Checked;
using catalogue::Equation;
using catalogue::Measure;
using catalogue::Norm;
using catalogue::NormSex;
using catalogue::Whom;

QString peopleWords(NormSex sex, const Phrasebook& phrases)
{
    switch (sex) {
    case NormSex::Female:
        return phrases("women");
    case NormSex::Male:
        return phrases("men");
    case NormSex::Any:
        break;
    }
    return phrases("adults");
}

QString sideWords(const QString& side, const Phrasebook& phrases)
{
    if (side == QLatin1String("right"))
        return phrases("right hand");
    if (side == QLatin1String("left"))
        return phrases("left hand");
    return side == QLatin1String("dominant") ? phrases("dominant hand") : phrases("non-dominant hand");
}

QString normWords(const Norm& norm, const Measure& measure, const Phrasebook& phrases)
{
    QStringList parts;
    if (norm.mean && norm.sd)
        parts += phrases("mean %1, SD %2")
                     .arg(amount(*norm.mean, measure, phrases), amount(*norm.sd, measure, phrases));
    else if (norm.mean)
        parts += phrases("mean %1").arg(amount(*norm.mean, measure, phrases));
    if (norm.meanLow && norm.meanHigh)
        parts += phrases("the mean lies between %1 and %2, which is no range of people")
                     .arg(amount(*norm.meanLow, measure, phrases), amount(*norm.meanHigh, measure, phrases));
    if (norm.rangeLow && norm.rangeHigh)
        parts += phrases("%1 to %2 (%3)")
                     .arg(amount(*norm.rangeLow, measure, phrases), amount(*norm.rangeHigh, measure, phrases),
                          norm.rangeWords);
    else if (norm.rangeLow)
        parts += phrases("%1 and more (%2)").arg(amount(*norm.rangeLow, measure, phrases), norm.rangeWords);
    else if (norm.rangeHigh)
        parts += phrases("up to %1 (%2)").arg(amount(*norm.rangeHigh, measure, phrases), norm.rangeWords);
    return phrases.joined("%1; %2", parts);
}

/// A sum with one more term.
QString plus(const QString& sum, double factor, const QString& of, const Phrasebook& phrases)
{
    if (factor == 0)
        return sum;
    return (factor < 0 ? phrases("%1 − %2 × %3") : phrases("%1 + %2 × %3"))
        .arg(sum, QString::number(std::abs(factor)), of);
}

QString equationWords(const Equation& equation, const Measure& measure, const Phrasebook& phrases)
{
    QString sum = QString::number(equation.intercept);
    sum = plus(sum, equation.perCm, phrases("height in cm"), phrases);
    sum = plus(sum, equation.perKg, phrases("weight in kg"), phrases);
    sum = plus(sum, equation.perYear, phrases("age"), phrases);
    if (!equation.lowerLimitBelow)
        return phrases("predicted %1 = %2").arg(values::unitWords(measure.unit, phrases), sum);
    const QString sentence = equation.lowerLimitChecked == Checked::Memory
                                 ? phrases("predicted %1 = %2; lower bound %3 below it (from memory)")
                                 : phrases("predicted %1 = %2; lower bound %3 below it");
    return sentence.arg(values::unitWords(measure.unit, phrases), sum,
                        amount(*equation.lowerLimitBelow, measure, phrases));
}

QString bandWords(const Band& band, const Measure& measure, const Phrasebook& phrases)
{
    const QString words = band.words;
    const QString where = span(band, measure, phrases);
    if (band.kind == catalogue::BandKind::Level)
        return phrases("%1: %2").arg(where, words);
    QStringList parts = {phrases("cut-off %1 for %2").arg(where, words)};
    if (band.sensitivity)
        parts += phrases("sensitivity %1").arg(*band.sensitivity);
    if (band.specificity)
        parts += phrases("specificity %1").arg(*band.specificity);
    return phrases.joined("%1, %2", parts);
}

template <class Row>
QString line(const Row& row, const QString& words, const Catalogue& catalogue, const Phrasebook& phrases)
{
    const QString line =
        phrases("%1: %2 (%3).")
            .arg(written(row.whom, phrases), words, sourceWords(row.whom, row.origin, catalogue, phrases));
    return phrases.joined("%1 %2", {line, row.origin.note});
}

} // namespace

QString written(const Whom& whom, const Phrasebook& phrases)
{
    QString people = peopleWords(whom.sex, phrases);
    if (whom.ageLow && whom.ageHigh)
        people = phrases("%1 of %2 to %3")
                     .arg(people, QString::number(*whom.ageLow), QString::number(*whom.ageHigh));
    else if (whom.ageLow)
        people = phrases("%1 of %2 and over").arg(people, QString::number(*whom.ageLow));
    else if (whom.ageHigh)
        people = phrases("%1 up to %2").arg(people, QString::number(*whom.ageHigh));
    return whom.side.isEmpty() ? people : phrases("%1, %2").arg(people, sideWords(whom.side, phrases));
}

QString sourceWords(const Whom& whom, const catalogue::Origin& origin, const Catalogue& catalogue,
                    const Phrasebook& phrases)
{
    const catalogue::Source* source = catalogue.source(origin.source);
    QStringList parts = {source != nullptr ? source->shortForm : origin.source, whom.populationWords};
    if (origin.n)
        parts += origin.isOfStudy ? phrases("n %1 in the whole study").arg(*origin.n)
                                  : phrases("n %1").arg(*origin.n);
    if (!whom.protocol.isEmpty())
        parts += whom.protocol;
    if (origin.checked == Checked::Memory)
        parts += phrases("from memory");
    return phrases.joined("%1, %2", parts);
}

QString span(const Band& band, const Measure& measure, const Phrasebook& phrases)
{
    const QString low = band.low ? amount(*band.low, measure, phrases) : QString();
    const QString high = band.high ? amount(*band.high, measure, phrases) : QString();
    if (band.low && band.high) {
        const QString sentence = band.highIncluded
                                     ? band.lowIncluded ? phrases("%1 to %2") : phrases("over %1 to %2")
                                 : band.lowIncluded ? phrases("%1 to under %2")
                                                    : phrases("over %1 to under %2");
        return sentence.arg(low, high);
    }
    if (band.low)
        return (band.lowIncluded ? phrases("%1 and more") : phrases("over %1")).arg(low);
    return (band.highIncluded ? phrases("%1 and less") : phrases("under %1")).arg(high);
}

QStringList referenceWords(const QString& id, const Catalogue& catalogue, const Phrasebook& phrases)
{
    const Measure* measure = catalogue.measure(id);
    if (measure == nullptr)
        return {};
    QStringList lines;
    for (const Norm& row : catalogue.norms) {
        if (row.measure == id)
            lines += line(row, normWords(row, *measure, phrases), catalogue, phrases);
    }
    for (const Equation& row : catalogue.equations) {
        if (row.measure == id)
            lines += line(row, equationWords(row, *measure, phrases), catalogue, phrases);
    }
    for (const Band& row : catalogue.bands) {
        if (row.measure == id)
            lines += line(row, bandWords(row, *measure, phrases), catalogue, phrases);
    }
    return lines;
}

} // namespace telling
