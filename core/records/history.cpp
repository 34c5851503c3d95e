#include "core/records/history.h"

#include <QLocale>
#include <QStringList>

#include <algorithm>
#include <numeric>

namespace records
{

namespace
{

const QString speed = QStringLiteral("gait-speed-comfortable");
const QString walkTime = QStringLiteral("ten-metre-walk-time-comfortable");
const QString timedDistance = QStringLiteral("distance_m");

Occasion occasion(const Visit& visit, Finding finding)
{
    Conditions conditions = withExceptions(visit.conditions, finding.exceptions);
    return {visit.id, visit.day, visit.state, std::move(finding), std::move(conditions), {}};
}

bool isPositive(double number)
{
    return number > 0;
}

std::vector<double> timesOf(const Finding& walk)
{
    const auto* time = std::get_if<values::Quantity>(&walk.value);
    if (time == nullptr)
        return {};
    return walk.trials.empty() ? std::vector{time->number} : walk.trials;
}

QString computedWords(double distance, const std::vector<double>& times)
{
    QStringList seconds;
    for (const double time : times)
        seconds += QString::number(time, 'f', 2);
    const QString words =
        QStringLiteral("%1 m in %2 s").arg(QString::number(distance), seconds.join(QStringLiteral(" and ")));
    return times.size() == 1 ? words : words + QStringLiteral(", mean of the speeds");
}

/// A walk that was tried and could not be done has no speed either; that is said, not left out.
std::optional<Occasion> computedSpeed(const Visit& visit)
{
    const Finding* walk = visit.finding(walkTime, Side::None);
    if (walk == nullptr)
        return std::nullopt;
    Occasion computed = occasion(visit, *walk);
    computed.finding.measure = speed;
    computed.finding.trials.clear();
    computed.finding.capReached = false;
    if (values::isUnable(walk->value)) {
        computed.computedFrom = QStringLiteral("timed walk tried and unable");
        return computed;
    }
    const std::vector<double> times = timesOf(*walk);
    const double distance = QLocale::c().toDouble(recorded(computed.conditions, timedDistance));
    if (times.empty() || !isPositive(distance) || !std::ranges::all_of(times, isPositive))
        return std::nullopt;
    for (const double time : times)
        computed.finding.trials.push_back(distance / time);
    const std::vector<double>& speeds = computed.finding.trials;
    const double mean =
        std::accumulate(speeds.begin(), speeds.end(), 0.0) / static_cast<double>(speeds.size());
    computed.finding.value = values::Quantity{mean, values::Unit::MetrePerSecond};
    computed.computedFrom = computedWords(distance, times);
    return computed;
}

bool isNotAsked(const Finding& finding)
{
    const auto* missing = std::get_if<values::Missing>(&finding.value);
    return missing != nullptr && missing->why == values::Absence::NotAsked;
}

} // namespace

std::optional<Occasion> occasionAt(const Visit& visit, const QString& measure, Side side)
{
    const Finding* entered = visit.finding(measure, side);
    if (measure == speed && side == Side::None && (entered == nullptr || isNotAsked(*entered))) {
        if (auto computed = computedSpeed(visit))
            return computed;
    }
    if (entered == nullptr)
        return std::nullopt;
    return occasion(visit, *entered);
}

std::vector<Occasion> history(const std::vector<Visit>& visits, const catalogue::Catalogue& catalogue,
                              const QString& measure, Side side)
{
    std::vector<Occasion> occasions;
    if (catalogue.measure(measure) == nullptr)
        return occasions;
    for (const Visit& visit : visits) {
        if (auto found = occasionAt(visit, measure, side))
            occasions.push_back(std::move(*found));
    }
    std::ranges::stable_sort(occasions, {}, &Occasion::day);
    return occasions;
}

std::vector<std::pair<QString, Side>> recordedPairs(const std::vector<Visit>& visits,
                                                    const catalogue::Catalogue& catalogue)
{
    std::vector<std::pair<QString, Side>> pairs;
    for (const catalogue::Measure& measure : catalogue.measures) {
        const std::vector<Side> sides =
            measure.hasSides ? std::vector{Side::Right, Side::Left} : std::vector{Side::None};
        for (const Side side : sides) {
            const bool isRecorded = std::ranges::any_of(
                visits, [&](const Visit& visit) { return occasionAt(visit, measure.id, side).has_value(); });
            if (isRecorded)
                pairs.emplace_back(measure.id, side);
        }
    }
    return pairs;
}

} // namespace records
