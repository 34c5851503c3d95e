#include "core/records/reading.h"

#include "core/records/allowed.h"

#include <QRegularExpression>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace records
{

namespace
{

/// A stopwatch shows more than a protocol asks for: what it shows of a time is kept.
bool mayBeFiner(const catalogue::Measure& measure)
{
    return measure.kind == catalogue::Kind::Duration;
}

bool isOnStep(double number, const catalogue::Measure& measure)
{
    if (mayBeFiner(measure) || !measure.step)
        return true;
    const double steps = number / *measure.step;
    return std::abs(steps - std::round(steps)) < 1e-6 * std::max(1.0, std::abs(steps));
}

int decimalsOf(double step)
{
    const QString text = QString::number(step, 'g', 6);
    const qsizetype point = text.indexOf(u'.');
    return point < 0 ? 0 : static_cast<int>(text.size() - point - 1);
}

base::Message stepWords(double step)
{
    if (step == 1)
        return base::said("whole numbers");
    if (step == 0.1)
        return base::said("at most one decimal");
    if (step == 0.01)
        return base::said("at most two decimals");
    return base::said("in steps of %1").arg(step);
}

base::Error stoppedAtCap(const catalogue::Measure& measure)
{
    return invalid(base::said("%1: a trial is stopped at %2; record unable, or the cap reached.")
                       .arg(base::titled(measure.title),
                            withUnit(base::verbatim(QString::number(*measure.cap)), measure.unit)));
}

bool isHold(const catalogue::Measure& measure)
{
    return measure.better == catalogue::Direction::HigherIsBetter;
}

/// "Could not walk" is a state, never a distance or a speed of 0.
bool isWalkOfNothing(double number, const catalogue::Measure& measure)
{
    const bool isWalk = measure.unit == values::Unit::Metre || measure.unit == values::Unit::MetrePerSecond;
    return isWalk && number == 0;
}

} // namespace

base::Result<double> numberTyped(const QString& typed, const catalogue::Measure& measure)
{
    static const QRegularExpression plain(QStringLiteral("^[+-]?(?:[0-9]+(?:\\.([0-9]*))?|\\.([0-9]+))$"));
    const QString text = typed.trimmed().replace(u',', u'.');
    const QRegularExpressionMatch match = plain.match(text);
    const qsizetype decimals = match.captured(1).size() + match.captured(2).size();
    const bool isTooFine = !mayBeFiner(measure) && measure.step && decimals > decimalsOf(*measure.step);
    if (!match.hasMatch() || isTooFine)
        return allowedOnly(measure);
    const double number = text.toDouble();
    if (const auto wrong = wrongWithNumber(number, measure))
        return *wrong;
    if (!isOnStep(number, measure))
        return allowedOnly(measure);
    return number;
}

values::Value valueOfTrials(const std::vector<double>& trials, const catalogue::Measure& measure)
{
    if (trials.empty() || measure.kind == catalogue::Kind::Choice)
        return values::Missing{};
    double number = trials.back();
    if (measure.rule == catalogue::TrialRule::Mean)
        number = std::accumulate(trials.begin(), trials.end(), 0.0) / static_cast<double>(trials.size());
    else if (measure.rule == catalogue::TrialRule::Best &&
             measure.better == catalogue::Direction::HigherIsBetter)
        number = *std::ranges::max_element(trials);
    else if (measure.rule == catalogue::TrialRule::Best &&
             measure.better == catalogue::Direction::LowerIsBetter)
        number = *std::ranges::min_element(trials);
    if (measure.kind == catalogue::Kind::Grade)
        return values::Grade{static_cast<int>(std::lround(number))};
    return values::Quantity{number, measure.unit};
}

base::Message allowedWords(const catalogue::Measure& measure)
{
    if (measure.kind == catalogue::Kind::Choice)
        return optionWords(measure.options);
    const base::Message range = withUnit(rangeWords(measure.lowest, measure.highest), measure.unit);
    const std::optional<double> step = measure.kind == catalogue::Kind::Grade ? 1 : measure.step;
    return step && !mayBeFiner(measure) ? base::said("%1, %2").arg(range, stepWords(*step)) : range;
}

std::optional<base::Error> wrongWithNumber(double number, const catalogue::Measure& measure)
{
    if (std::isfinite(number) && measure.cap && number > *measure.cap)
        return stoppedAtCap(measure);
    if (!isWithin(number, measure.lowest, measure.highest))
        return allowedOnly(measure);
    if (isWalkOfNothing(number, measure)) {
        return invalid(
            base::said("%1: %2 is no measurement; record tried and unable, or why it was not attempted.")
                .arg(base::titled(measure.title),
                     withUnit(base::verbatim(QStringLiteral("0")), measure.unit)));
    }
    return std::nullopt;
}

std::optional<base::Error> wrongWithReading(double number, bool capReached, const catalogue::Measure& measure)
{
    if (const auto wrong = wrongWithNumber(number, measure))
        return wrong;
    if (!isOnStep(number, measure))
        return allowedOnly(measure);
    if (measure.cap && number == *measure.cap && !capReached && !isHold(measure))
        return stoppedAtCap(measure);
    return std::nullopt;
}

base::Error allowedOnly(const catalogue::Measure& measure)
{
    return invalid(base::said("%1: %2.").arg(base::titled(measure.title), allowedWords(measure)));
}

} // namespace records
