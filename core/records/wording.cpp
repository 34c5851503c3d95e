#include "core/records/wording.h"

#include "core/base/rounding.h"
#include "core/catalogue/texts.h"

#include <cmath>

namespace records
{

namespace
{

constexpr int mostDecimals = 3;

int decimalsOf(const catalogue::Measure& measure)
{
    const double step = measure.step.value_or(0.01);
    double scale = 1;
    for (int decimals = 0; decimals < mostDecimals; ++decimals, scale *= 10) {
        if (std::abs(step * scale - std::round(step * scale)) < 1e-6)
            return decimals;
    }
    return mostDecimals;
}

QString quantityWritten(const values::Quantity& quantity, const catalogue::Measure& measure,
                        const base::Phrasebook& phrases)
{
    return values::withUnit(written(quantity.number, measure), quantity.unit, phrases);
}

/// The word of a step; nullptr where the measure has none for it.
const catalogue::Option* wordOf(int step, const catalogue::Measure& measure)
{
    const int place = step - int(measure.lowest.value_or(0));
    return place < 0 || size_t(place) >= measure.options.size() ? nullptr : &measure.options[size_t(place)];
}

QString gradeWritten(const values::Grade& grade, const catalogue::Measure& measure,
                     const base::Phrasebook& phrases)
{
    const catalogue::Option* word = wordOf(grade.step, measure);
    const QString step = QString::number(grade.step);
    return word == nullptr ? phrases("grade %1").arg(step)
                           : phrases("%1 (%2)").arg(catalogue::inShort(*word), step);
}

/// "0 as expected, 4 worst"; empty where neither end is better.
QString endsOf(const catalogue::Measure& measure, const base::Phrasebook& phrases)
{
    if (measure.better == catalogue::Direction::Neither || !measure.lowest || !measure.highest)
        return {};
    const bool higher = measure.better == catalogue::Direction::HigherIsBetter;
    const int best = int(higher ? *measure.highest : *measure.lowest);
    const int worst = int(higher ? *measure.lowest : *measure.highest);
    const catalogue::Option* word = wordOf(best, measure);
    return phrases("%1 %2, %3 worst")
        .arg(QString::number(best), word == nullptr ? phrases("best") : catalogue::inShort(*word),
             QString::number(worst));
}

QString choiceWritten(const values::Choice& choice, const catalogue::Measure& measure)
{
    const catalogue::Option* option = catalogue::optionOf(measure.options, choice.key);
    return option == nullptr ? choice.key : option->title;
}

QString missingWritten(const values::Missing& missing, const base::Phrasebook& phrases)
{
    const QString why =
        missing.why == values::Absence::Unable ? phrases("unable") : written(missing.why, phrases);
    return missing.reason.isEmpty() ? why : phrases("%1: %2").arg(why, missing.reason);
}

} // namespace

QString written(double number, const catalogue::Measure& measure)
{
    const int decimals = decimalsOf(measure);
    const double shown = base::rounded(number, decimals);
    const bool isBetween = values::exceeds(shown, number) || values::exceeds(number, shown);
    const bool isMean = measure.rule == catalogue::TrialRule::Mean && !measure.computed;
    return base::fixed(number, decimals + (isBetween && isMean ? 1 : 0));
}

QString writtenTrial(double number, const catalogue::Measure& measure)
{
    const QString onStep = written(number, measure);
    if (measure.kind != catalogue::Kind::Duration || onStep.toDouble() == number)
        return onStep;
    const QString whole = QString::number(number, 'f', 9);
    qsizetype size = whole.size();
    while (size > onStep.size() && whole[size - 1] == u'0')
        --size;
    return whole.first(size);
}

QString written(const values::Value& value, const catalogue::Measure& measure,
                const base::Phrasebook& phrases)
{
    if (const auto* quantity = std::get_if<values::Quantity>(&value))
        return quantityWritten(*quantity, measure, phrases);
    if (const auto* grade = std::get_if<values::Grade>(&value))
        return gradeWritten(*grade, measure, phrases);
    if (const auto* choice = std::get_if<values::Choice>(&value))
        return choiceWritten(*choice, measure);
    return missingWritten(std::get<values::Missing>(value), phrases);
}

QString writtenInFull(const values::Value& value, const catalogue::Measure& measure,
                      const base::Phrasebook& phrases)
{
    const auto* grade = std::get_if<values::Grade>(&value);
    if (grade == nullptr)
        return written(value, measure, phrases);
    const catalogue::Option* word = wordOf(grade->step, measure);
    const QString ends = endsOf(measure, phrases);
    const QString step = QString::number(grade->step);
    const QString place =
        ends.isEmpty() ? phrases("grade %1").arg(step) : phrases("grade %1; %2").arg(step, ends);
    return word == nullptr ? place : phrases("%1 (%2)").arg(word->title, place);
}

QString written(values::Absence absence, const base::Phrasebook& phrases)
{
    switch (absence) {
    case values::Absence::Unable:
        return phrases("tried and unable");
    case values::Absence::NotAttempted:
        return phrases("not attempted");
    case values::Absence::Refused:
        return phrases("did not wish");
    case values::Absence::NotApplicable:
        return phrases("not applicable");
    case values::Absence::NotAsked:
        break;
    }
    return phrases("not asked");
}

QString titled(const catalogue::Measure& measure, const base::Phrasebook& phrases)
{
    return measure.isOwn ? phrases("%1 (the clinic's own)").arg(measure.title) : measure.title;
}

QString written(Side side, const base::Phrasebook& phrases)
{
    switch (side) {
    case Side::Right:
        return phrases("right");
    case Side::Left:
        return phrases("left");
    case Side::None:
        break;
    }
    return {};
}

QString sidedTitle(const QString& title, Side side, const base::Phrasebook& phrases)
{
    return side == Side::None ? title : phrases("%1, %2").arg(title, written(side, phrases));
}

QString sidedTitle(const catalogue::Measure& measure, Side side, const base::Phrasebook& phrases)
{
    return sidedTitle(titled(measure, phrases), side, phrases);
}

QString directionWords(const catalogue::Measure& measure, const base::Phrasebook& phrases)
{
    if (measure.better == catalogue::Direction::Neither)
        return {};
    const bool higher = measure.better == catalogue::Direction::HigherIsBetter;
    const bool isScale = measure.kind == catalogue::Kind::Grade || measure.kind == catalogue::Kind::Score;
    if (!isScale || !measure.lowest || !measure.highest)
        return higher ? phrases("higher is better") : phrases("lower is better");
    const QString best = written(higher ? *measure.highest : *measure.lowest, measure);
    const QString worst = written(higher ? *measure.lowest : *measure.highest, measure);
    return phrases("%1 is best, %2 is worst").arg(best, worst);
}

} // namespace records
