#include "core/telling/standing_wording.h"

#include "core/base/rounding.h"
#include "core/telling/reference_words.h"
#include "core/telling/terms.h"

#include <algorithm>
#include <cmath>

namespace telling
{

namespace
{

using base::Phrasebook;
using catalogue::BandKind;
using catalogue::Catalogue;
using catalogue::Checked;
using catalogue::Direction;
using catalogue::Kind;
using catalogue::Measure;

/// How a number above or below another is said for what is measured.
struct Comparative {
    QString above;
    QString below;
    QString deviationsAbove;
    QString deviationsBelow;
};

Comparative comparativeOf(const Measure& measure, const Phrasebook& phrases)
{
    const bool isTimedTask = measure.kind == Kind::Duration && measure.better == Direction::LowerIsBetter;
    if (isTimedTask)
        return {phrases("slower than the mean of %1"), phrases("faster than the mean of %1"),
                phrases("%2 SD slower than the mean of %1"), phrases("%2 SD faster than the mean of %1")};
    if (measure.kind == Kind::Speed)
        return {phrases("faster than the mean of %1"), phrases("slower than the mean of %1"),
                phrases("%2 SD faster than the mean of %1"), phrases("%2 SD slower than the mean of %1")};
    if (measure.kind == Kind::Duration || measure.kind == Kind::Distance)
        return {phrases("longer than the mean of %1"), phrases("shorter than the mean of %1"),
                phrases("%2 SD longer than the mean of %1"), phrases("%2 SD shorter than the mean of %1")};
    return {phrases("higher than the mean of %1"), phrases("lower than the mean of %1"),
            phrases("%2 SD higher than the mean of %1"), phrases("%2 SD lower than the mean of %1")};
}

QString percentileWords(double percentile, const Measure& measure, const Phrasebook& phrases)
{
    const QString number = percentile < 1    ? phrases("below 1")
                           : percentile > 99 ? phrases("above 99")
                                             : QString::number(std::lround(percentile));
    return measure.better == Direction::Neither ? phrases("percentile %1").arg(number)
                                                : phrases("percentile %1, higher is better").arg(number);
}

QString meanWords(const judging::AgainstNorm& answer, double value, const Measure& measure,
                  const Phrasebook& phrases)
{
    const catalogue::Norm& norm = answer.norm;
    const Comparative words = comparativeOf(measure, phrases);
    const bool isAbove = values::exceeds(value, *norm.mean);
    const bool isBelow = values::exceeds(*norm.mean, value);
    const QString mean = amount(*norm.mean, measure, phrases);
    if (!answer.z)
        return !isAbove && !isBelow ? phrases("at the mean of %1").arg(mean)
                                    : (isAbove ? words.above : words.below).arg(mean);
    const QString deviations = base::fixed(std::abs(*answer.z), 1);
    const QString place =
        deviations.toDouble() == 0
            ? phrases("at the mean of %1").arg(mean)
            : (isAbove ? words.deviationsAbove : words.deviationsBelow).arg(mean, deviations);
    return phrases("%1 (SD %2), %3")
        .arg(place, amount(*norm.sd, measure, phrases),
             percentileWords(*answer.percentile, measure, phrases));
}

QString rangeWords(const catalogue::Norm& norm, double value, const Measure& measure,
                   const Phrasebook& phrases)
{
    const QString low = norm.rangeLow ? amount(*norm.rangeLow, measure, phrases) : phrases("no lower end");
    const QString high = norm.rangeHigh ? amount(*norm.rangeHigh, measure, phrases) : phrases("no upper end");
    const bool isBelow = norm.rangeLow && values::exceeds(*norm.rangeLow, value);
    const bool isAbove = norm.rangeHigh && values::exceeds(value, *norm.rangeHigh);
    const QString sentence = isBelow   ? phrases("below the range %1 to %2 (%3)")
                             : isAbove ? phrases("above the range %1 to %2 (%3)")
                                       : phrases("within the range %1 to %2 (%3)");
    return sentence.arg(low, high, norm.rangeWords);
}

/// The mean's interval says how well the mean is known, not how people lie: worse than it is not abnormal
/// by itself. Where something else says more, it must not seem to take that back.
QString intervalWords(const catalogue::Norm& norm, double value, const Measure& measure, bool isAlone,
                      const Phrasebook& phrases)
{
    const bool isLowerBetter = measure.better == Direction::LowerIsBetter;
    const bool isWorse =
        isLowerBetter ? values::exceeds(value, *norm.meanHigh) : values::exceeds(*norm.meanLow, value);
    QString sentence = phrases("the interval of the mean is %1 to %2, which is no range of people");
    if (isWorse && measure.better != Direction::Neither)
        sentence =
            isAlone
                ? phrases(
                      "beyond the interval of the mean, %1 to %2: worse than average, which is not abnormal")
                : phrases("beyond the interval of the mean, %1 to %2: worse than average");
    return sentence.arg(amount(*norm.meanLow, measure, phrases), amount(*norm.meanHigh, measure, phrases));
}

QString obstacleWords(judging::Obstacle obstacle, const Phrasebook& phrases)
{
    switch (obstacle) {
    case judging::Obstacle::AgeUnknown:
        return phrases("the date of birth is not recorded");
    case judging::Obstacle::SexUnknown:
        return phrases("values are apart for women and men, and neither is recorded");
    case judging::Obstacle::HandUnknown:
        return phrases("the dominant hand is not recorded");
    case judging::Obstacle::HeightUnknown:
        return phrases("the height is not recorded");
    case judging::Obstacle::WeightUnknown:
        return phrases("the weight is not recorded");
    case judging::Obstacle::AgeOutside:
        return phrases("no reference values for this age");
    case judging::Obstacle::OtherRule:
        return phrases("the source makes its value of the trials in another way");
    case judging::Obstacle::OtherCondition:
        return phrases("the source measured under another condition");
    case judging::Obstacle::StoppedEarly:
        return phrases("the trial was stopped too early to tell");
    }
    return {};
}

/// What one kind of answer says, without its source.
struct Teller {
    const judging::Standing& standing;
    const Measure& measure;
    const Catalogue& catalogue;
    const Phrasebook& phrases;
    bool isAlone = true; ///< nothing more serious is said of the same result

    QString source(const catalogue::Whom& whom, const catalogue::Origin& origin) const
    {
        return sourceWords(whom, origin, catalogue, phrases);
    }

    QString operator()(const judging::AgainstNorm& answer) const
    {
        const catalogue::Norm& norm = answer.norm;
        QStringList parts;
        if (norm.mean)
            parts += meanWords(answer, standing.value, measure, phrases);
        if (norm.meanLow && norm.meanHigh)
            parts += intervalWords(norm, standing.value, measure, isAlone, phrases);
        if (norm.rangeLow || norm.rangeHigh)
            parts += rangeWords(norm, standing.value, measure, phrases);
        return phrases("%1, for %2 (%3)")
            .arg(phrases.joined("%1; %2", parts), written(norm.whom, phrases),
                 source(norm.whom, norm.origin));
    }

    QString operator()(const judging::AgainstPrediction& answer) const
    {
        const catalogue::Equation& equation = answer.equation;
        QString words = phrases("%1 % of the predicted %2")
                            .arg(QString::number(std::lround(answer.percent)),
                                 amount(answer.predicted, measure, phrases));
        if (answer.lowerLimit) {
            const bool isBelow = values::exceeds(*answer.lowerLimit, standing.value);
            const QString limit = isBelow ? phrases("%1, below the lower bound of %2")
                                          : phrases("%1, not below the lower bound of %2");
            words = limit.arg(words, amount(*answer.lowerLimit, measure, phrases));
            if (equation.lowerLimitChecked == Checked::Memory)
                words = phrases("%1 (the bound from memory)").arg(words);
        }
        return phrases("%1, for %2 (%3)")
            .arg(words, written(equation.whom, phrases), source(equation.whom, equation.origin));
    }

    QString operator()(const judging::AgainstBand& answer) const
    {
        const catalogue::Band& band = answer.band;
        const QString where = span(band, measure, phrases);
        const QString words = band.words;
        const QString from = source(band.whom, band.origin);
        if (band.kind == BandKind::Level)
            return phrases("%1: %2 (%3)").arg(words, where, from);
        QString line = answer.isWithin
                           ? phrases("beyond the cut-off for %1, %2 (%3); this does not predict a fall or "
                                     "an illness")
                           : phrases("not beyond the cut-off for %1, %2 (%3); this does not rule anything "
                                     "out");
        line = line.arg(words, where, from);
        if (band.sensitivity)
            line = phrases("%1; in the source, %2 of 100 %3 were beyond it")
                       .arg(line, QString::number(std::lround(*band.sensitivity * 100)), words);
        if (band.specificity)
            line = phrases("%1; %2 of 100 others were not")
                       .arg(line, QString::number(std::lround(*band.specificity * 100)));
        return line;
    }

    QString operator()(const judging::NoReference& none) const
    {
        QStringList reasons;
        for (const judging::Obstacle obstacle : none.obstacles)
            reasons += obstacleWords(obstacle, phrases);
        return phrases("%1, for %2 (%3)")
            .arg(phrases.joined("%1; %2", reasons), covered(none), source(none.whom, none.origin));
    }

    QString covered(const judging::NoReference& none) const
    {
        const catalogue::Whom& whom = none.whom;
        const bool isGap =
            none.age && std::ranges::count(none.obstacles, judging::Obstacle::AgeOutside) > 0 &&
            *none.age >= whom.ageLow.value_or(*none.age + 1) && *none.age <= whom.ageHigh.value_or(*none.age);
        return isGap ? phrases("%1, with a gap at this age").arg(written(whom, phrases))
                     : written(whom, phrases);
    }
};

const catalogue::Origin& originOf(const judging::Standing& standing)
{
    struct Origins {
        const catalogue::Origin& operator()(const judging::AgainstNorm& answer) const
        {
            return answer.norm.origin;
        }
        const catalogue::Origin& operator()(const judging::AgainstPrediction& answer) const
        {
            return answer.equation.origin;
        }
        const catalogue::Origin& operator()(const judging::AgainstBand& answer) const
        {
            return answer.band.origin;
        }
        const catalogue::Origin& operator()(const judging::NoReference& none) const { return none.origin; }
    };
    return std::visit(Origins{}, standing.answer);
}

enum class Telling { Place, Mean, Level, CutOff, Nothing };

Telling tellingOf(const judging::Standing& standing)
{
    if (const auto* norm = std::get_if<judging::AgainstNorm>(&standing.answer))
        return norm->z || norm->norm.rangeLow || norm->norm.rangeHigh ? Telling::Place : Telling::Mean;
    if (const auto* band = std::get_if<judging::AgainstBand>(&standing.answer))
        return band->band.kind == BandKind::Level ? Telling::Level : Telling::CutOff;
    return std::holds_alternative<judging::NoReference>(standing.answer) ? Telling::Nothing : Telling::Place;
}

/// In the order of what they would make one do: the most serious first.
enum class Seriousness {
    FarOff, ///< two standard deviations or more to the worse, below the lower limit, or beyond a cut-off
    OutsideRange,
    Ordinary,
    OfTheMean, ///< says how well a mean is known, not how people lie
    NoAnswer
};

struct Weigher {
    const judging::Standing& standing;
    const Measure& measure;

    bool isWorse(double number, double end) const
    {
        const bool isBelow = values::exceeds(end, number);
        const bool isAbove = values::exceeds(number, end);
        return measure.better == Direction::HigherIsBetter  ? isBelow
               : measure.better == Direction::LowerIsBetter ? isAbove
                                                            : isBelow || isAbove;
    }

    Seriousness operator()(const judging::AgainstNorm& answer) const
    {
        constexpr double farOff = 2; // standard deviations; common practice, no source
        const catalogue::Norm& norm = answer.norm;
        if (answer.z && !values::exceeds(farOff, std::abs(*answer.z)) && isWorse(standing.value, *norm.mean))
            return Seriousness::FarOff;
        const bool isBelow = norm.rangeLow && values::exceeds(*norm.rangeLow, standing.value);
        const bool isAbove = norm.rangeHigh && values::exceeds(standing.value, *norm.rangeHigh);
        if ((isBelow && measure.better != Direction::LowerIsBetter) ||
            (isAbove && measure.better != Direction::HigherIsBetter))
            return Seriousness::OutsideRange;
        return answer.z || norm.rangeLow || norm.rangeHigh ? Seriousness::Ordinary : Seriousness::OfTheMean;
    }
    Seriousness operator()(const judging::AgainstPrediction& answer) const
    {
        const bool isBelow = answer.lowerLimit && values::exceeds(*answer.lowerLimit, standing.value);
        return isBelow ? Seriousness::FarOff : Seriousness::Ordinary;
    }
    Seriousness operator()(const judging::AgainstBand& answer) const
    {
        return answer.band.kind == BandKind::Risk && answer.isWithin ? Seriousness::FarOff
                                                                     : Seriousness::Ordinary;
    }
    Seriousness operator()(const judging::NoReference&) const { return Seriousness::NoAnswer; }
};

Seriousness seriousness(const judging::Standing& standing, const Measure& measure)
{
    return std::visit(Weigher{standing, measure}, standing.answer);
}

/// The order in which they are told, everywhere.
std::vector<judging::Standing> bySeriousness(std::vector<judging::Standing> standings, const Measure& measure)
{
    std::ranges::stable_sort(standings, {}, [&](const judging::Standing& standing) {
        return std::tuple(seriousness(standing, measure), originOf(standing).checked == Checked::Memory,
                          tellingOf(standing));
    });
    return standings;
}

bool isSerious(const judging::Standing& standing, const Measure& measure)
{
    return seriousness(standing, measure) <= Seriousness::OutsideRange;
}

} // namespace

QString written(const judging::Standing& standing, const Measure& measure, const Catalogue& catalogue,
                const Phrasebook& phrases)
{
    return std::visit(Teller{standing, measure, catalogue, phrases, !isSerious(standing, measure)},
                      standing.answer);
}

QStringList standingLines(const std::vector<judging::Standing>& standings, const Measure& measure,
                          const Catalogue& catalogue, const Phrasebook& phrases)
{
    QStringList lines;
    const auto ordered = bySeriousness(standings, measure);
    const bool isAlone = ordered.empty() || !isSerious(ordered.front(), measure);
    for (const judging::Standing& standing : ordered) {
        const QString line =
            std::visit(Teller{standing, measure, catalogue, phrases, isAlone}, standing.answer);
        const QString& note = originOf(standing).note;
        const bool isAnswer = tellingOf(standing) != Telling::Nothing;
        lines += note.isEmpty() || !isAnswer ? phrases("%1.").arg(line) : phrases("%1. %2").arg(line, note);
    }
    return lines;
}

QString standingInOneLine(const std::vector<judging::Standing>& standings, const Measure& measure,
                          const Catalogue& catalogue, const Phrasebook& phrases)
{
    const auto ordered = bySeriousness(standings, measure);
    return ordered.empty() ? QString() : written(ordered.front(), measure, catalogue, phrases);
}

} // namespace telling
