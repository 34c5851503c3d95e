#include "app/charts/trend_remarks.h"

#include "app/charts/happening_row.h"
#include "core/records/patient.h"

#include <algorithm>
#include <map>

using namespace Qt::StringLiterals;

namespace charts
{

namespace
{

QString sided(const TrendLine& line, const QString& sentence, const base::Phrasebook& phrases)
{
    return line.name.isEmpty() ? sentence : phrases("%1: %2").arg(line.name, sentence);
}

QStringList remarksOnLimits(const TrendPoints& points, const TrendLine& line, const base::Phrasebook& phrases)
{
    const TrendLimits& limits = *line.limits;
    QStringList remarks{sided(line,
                              phrases("Thresholds of measurement error (95 %) around %1 of %2: %3.")
                                  .arg(points.written(limits.reference, phrases),
                                       records::dayInWords(limits.day, phrases), limits.source),
                              phrases)};
    if (!limits.atThisVisit.isEmpty())
        remarks << sided(
            line,
            phrases("The threshold depends on both values: for the result of this visit it is %1.")
                .arg(limits.atThisVisit),
            phrases);
    if (!limits.improved)
        remarks << sided(line, phrases("The scale ends before an improvement could show."), phrases);
    if (!limits.declined)
        remarks << sided(line, phrases("The scale ends before a decline could show."), phrases);
    return remarks;
}

/// What the thin lines are; empty where there are none.
QStringList remarksOnSlopes(const TrendPoints& points, const base::Phrasebook& phrases)
{
    bool hasJudging = false;
    bool hasRobust = false;
    bool isProvisional = false;
    for (const TrendLine& line : points.lines) {
        for (const TrendSlope& slope : line.slopes) {
            hasJudging = hasJudging || slope.judges;
            hasRobust = hasRobust || !slope.judges;
            isProvisional = isProvisional || slope.isProvisional;
        }
    }
    QStringList remarks;
    if (hasJudging)
        remarks << phrases("Thin dashed line: the trend that is judged, least squares.");
    if (hasRobust)
        remarks << phrases("Thin dotted line: a robust slope beside it, Theil–Sen; it judges nothing.");
    if (isProvisional)
        remarks << phrases("A line of three or four visits is provisional.");
    return remarks;
}

QStringList remarksOnCaps(const TrendPoints& points, const base::Phrasebook& phrases)
{
    bool isCapped = false;
    bool isInSlope = false;
    for (const TrendLine& line : points.lines) {
        for (const TrendEntry& entry : line.entries) {
            isCapped = isCapped || entry.isAtCap;
            const bool isWithin = std::ranges::any_of(line.slopes, [&](const TrendSlope& slope) {
                return entry.day >= slope.points.front().first && entry.day <= slope.points.back().first;
            });
            isInSlope = isInSlope || (entry.isAtCap && isWithin);
        }
    }
    if (!isCapped)
        return {};
    const QString mark = phrases("Open mark with an arrow: stopped at the cap, so at least that value.");
    return {isInSlope ? phrases("%1 The trend takes it as the cap itself.").arg(mark) : mark};
}

/// What changed at each number above the plot.
QStringList remarksOnBreaks(const TrendPoints& points, const base::Phrasebook& phrases)
{
    QStringList remarks;
    int number = 0;
    for (const TrendBreak& each : points.breaks) {
        remarks << phrases("%1: %2 (%3 to %4)")
                       .arg(QString::number(++number), phrases.joined("%1; %2", each.changes),
                            records::dayInWords(each.from, phrases), records::dayInWords(each.to, phrases));
    }
    return remarks;
}

} // namespace

QStringList remarksOn(const TrendPoints& points, const base::Phrasebook& phrases)
{
    QStringList remarks;
    std::map<QString, QStringList> shaded; // the sides of each sentence
    for (const TrendLine& line : points.lines) {
        if (line.limits)
            remarks << remarksOnLimits(points, line, phrases);
        if (line.standardError)
            shaded[phrases("Shaded: value ± 1.96 × standard error of measurement (%1), same source.")
                       .arg(points.written(*line.standardError, phrases))]
                << line.name;
    }
    for (const auto& [sentence, sides] : shaded)
        remarks << (shaded.size() > 1 ? phrases("%1: %2").arg(phrases.joined("%1, %2", sides), sentence)
                                      : sentence);
    remarks << remarksOnSlopes(points, phrases) << remarksOnCaps(points, phrases);
    for (const TrendLine& line : points.lines) {
        for (const QString& words : line.trend)
            remarks << sided(line, words, phrases);
    }
    if (!points.targets.empty())
        remarks << phrases("Dashed line across: the target agreed with the person.");
    remarks << remarksOnBreaks(points, phrases);
    if (!points.happenings.empty())
        remarks << happeningsTold(points.happenings, phrases);
    return remarks;
}

} // namespace charts
