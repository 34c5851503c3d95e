#include "core/records/derived.h"

#include "core/records/history.h"
#include "core/records/reading.h"
#include "core/records/short_battery.h"
#include "core/records/wording.h"

#include <QLocale>

#include <algorithm>
#include <array>

namespace records
{

namespace
{

using catalogue::Computing;
using catalogue::Measure;

const QString timedDistance = QStringLiteral("distance_m");
const QString timingEnd = QStringLiteral("timing_end");

/// One part of a computed measure, on one side, as this visit has it.
struct Part {
    const Measure* measure = nullptr;
    Side side = Side::None;
    std::optional<Occasion> occasion;

    std::optional<double> number() const
    {
        return occasion ? values::number(occasion->finding.value) : std::nullopt;
    }
    bool isUnable() const { return occasion && values::isUnable(occasion->finding.value); }
    bool isDoneOrTried() const { return number() || isUnable(); }
    /// "heel to shin, left,": the subject of a sentence.
    base::Message name() const
    {
        const base::Message title = base::titled(measure->title);
        switch (side) {
        case Side::Right:
            return base::said("%1, right,").arg(title);
        case Side::Left:
            return base::said("%1, left,").arg(title);
        case Side::None:
            break;
        }
        return title;
    }
};

using Parts = std::vector<Part>;

/// What the parts come to.
struct Outcome {
    values::Value value;
    base::Message from;
    std::vector<double> trials = {};
};

/// Only a sum takes right and left; elsewhere a part that is recorded on a side is missing.
Parts partsOf(const Measure& measure, const Visit& visit, const catalogue::Catalogue& catalogue)
{
    Parts parts;
    for (const QString& id : measure.computed->parts) {
        const Measure* part = catalogue.measure(id);
        if (part == nullptr)
            return {};
        const bool isPair = part->hasSides && measure.computed->rule == Computing::SumOfItems;
        const auto sides = isPair ? std::vector{Side::Right, Side::Left} : std::vector{Side::None};
        for (const Side side : sides)
            parts.push_back({part, side, occasionAt(visit, catalogue, id, side)});
    }
    return parts;
}

Conditions sharedConditions(const Parts& parts)
{
    std::vector<Conditions> different; // mostly those of the visit alone
    for (const Part& part : parts) {
        if (part.occasion && std::ranges::find(different, part.occasion->conditions) == different.end())
            different.push_back(part.occasion->conditions);
    }
    if (different.size() == 1)
        return different.front();
    Conditions shared;
    for (const Conditions& conditions : different)
        shared.insert(conditions);
    for (const QString& id : shared.keys()) {
        QStringList recordings;
        for (const Conditions& conditions : different) {
            if (!recordings.contains(recorded(conditions, id)))
                recordings += recorded(conditions, id);
        }
        shared[id] = recordings.contains(QString()) ? QString() : recordings.join(QStringLiteral(" / "));
    }
    return shared;
}

Outcome lacking(const base::Messages& names)
{
    const base::Message words =
        names.size() == 1
            ? base::said("%1 is missing").arg(names.front())
            : base::said("%1 and %2 more are missing").arg(names.front(), QString::number(names.size() - 1));
    return {values::Missing{values::Absence::NotAsked, {}}, words};
}

base::Messages namesWithout(const Parts& parts, bool (*isThere)(const Part&))
{
    base::Messages names;
    for (const Part& part : parts) {
        if (!isThere(part))
            names.push_back(part.name());
    }
    return names;
}

bool hasNumber(const Part& part)
{
    return part.number().has_value();
}

bool hasPositive(const Part& part)
{
    return part.number().value_or(0) > 0;
}

/// "12.50 s"
base::Message amountOf(const Part& part)
{
    return values::withUnit(written(*part.number(), *part.measure), part.measure->unit);
}

std::vector<double> trialsOf(const Part& part)
{
    const std::vector<double>& trials = part.occasion->finding.trials;
    return trials.empty() ? std::vector{*part.number()} : trials;
}

base::Message trialWords(const Part& part)
{
    base::Message numbers;
    for (const double trial : trialsOf(part)) {
        const base::Message number = base::verbatim(writtenTrial(trial, *part.measure));
        numbers = numbers.isEmpty() ? number : base::said("%1 and %2").arg(numbers, number);
    }
    return values::withUnit(numbers, part.measure->unit);
}

/// "10 m in 12.50 and 12.10 s, mean of the speeds"
base::Message walkWords(const base::Message& metres, const Part& part, Computing computing, size_t trials)
{
    const base::Message time = trialWords(part);
    if (trials == 1)
        return base::said("%1 in %2").arg(metres, time);
    const bool isSpeed = computing == Computing::Speed;
    switch (part.measure->rule) {
    case catalogue::TrialRule::Mean:
        return (isSpeed ? base::said("%1 in %2, mean of the speeds")
                        : base::said("%1 in %2, mean of the step lengths"))
            .arg(metres, time);
    case catalogue::TrialRule::Best:
        return (isSpeed ? base::said("%1 in %2, best of the speeds")
                        : base::said("%1 in %2, best of the step lengths"))
            .arg(metres, time);
    case catalogue::TrialRule::Single:
        break;
    }
    return (isSpeed ? base::said("%1 in %2, last of the speeds")
                    : base::said("%1 in %2, last of the step lengths"))
        .arg(metres, time);
}

/// Metres over each trial of the part, in the measure's unit, then by the part's trial rule.
Outcome distanceOver(const Measure& measure, const Part& part)
{
    const double metres = QLocale::c().toDouble(recorded(part.occasion->conditions, timedDistance));
    if (!(metres > 0))
        return lacking({base::said("the timed distance")});
    Outcome outcome;
    for (const double trial : trialsOf(part)) {
        if (!(trial > 0))
            return lacking({part.name()});
        const auto isLength = measure.computed->rule == Computing::StepLength;
        const values::Quantity each{metres / trial,
                                    isLength ? values::Unit::Metre : values::Unit::MetrePerSecond};
        outcome.trials.push_back(each.in(measure.unit).value_or(each).number);
    }
    Measure ruled;
    ruled.kind = measure.kind;
    ruled.unit = measure.unit;
    ruled.better = measure.better;
    ruled.rule = part.measure->rule;
    outcome.value = valueOfTrials(outcome.trials, ruled);
    outcome.from = walkWords(values::withUnit(QString::number(metres), values::Unit::Metre), part,
                             measure.computed->rule, outcome.trials.size());
    return outcome;
}

Outcome cadence(const Measure& measure, const Part& steps, const Part& time)
{
    const double perMinute = 60 * *steps.number() / *time.number();
    return {values::Quantity{perMinute, measure.unit},
            base::said("%1 in %2").arg(amountOf(steps), amountOf(time))};
}

Outcome ofWalk(const Measure& measure, const Parts& parts)
{
    for (const Part& part : parts) {
        if (part.isUnable())
            return {part.occasion->finding.value, base::said("timed walk tried and unable")};
    }
    if (const base::Messages missing = namesWithout(parts, hasPositive); !missing.empty())
        return lacking(missing);
    return measure.computed->rule == Computing::Cadence ? cadence(measure, parts[0], parts[1])
                                                        : distanceOver(measure, parts[0]);
}

Outcome sumOfItems(const Measure& measure, const Parts& parts)
{
    if (const base::Messages missing = namesWithout(parts, hasNumber); !missing.empty())
        return lacking(missing);
    double sum = 0;
    base::Message words;
    const auto add = [&words](const base::Message& item) {
        words = words.isEmpty() ? item : base::said("%1 + %2").arg(words, item);
    };
    for (size_t i = 0; i < parts.size(); ++i) {
        const Measure& item = *parts[i].measure;
        const double number = *parts[i].number();
        if (!item.hasSides) {
            sum += number;
            add(base::said("%1 %2").arg(base::titled(item.title), written(number, item)));
            continue;
        }
        const double left = *parts[++i].number();
        sum += (number + left) / 2;
        add(base::said("%1 (%2 + %3)/2")
                .arg(base::titled(item.title), written(number, item), written(left, item)));
    }
    return {values::Quantity{sum, measure.unit}, words};
}

bool isDoneOrTried(const Part& part)
{
    return part.isDoneOrTried();
}

Outcome shortBattery(const Measure& measure, const Parts& parts)
{
    constexpr double fullHold = 10; // s, without which the harder hold is not asked
    Parts asked;
    std::array<double, 3> holds = {};
    for (size_t i = 0; i < holds.size(); ++i) {
        asked.push_back(parts[i]);
        holds[i] = parts[i].number().value_or(0);
        if (holds[i] < fullHold)
            break;
    }
    asked.insert(asked.end(), parts.begin() + holds.size(), parts.end());
    if (const base::Messages missing = namesWithout(asked, isDoneOrTried); !missing.empty())
        return lacking(missing);
    if (parts[4].number() && recorded(parts[4].occasion->conditions, timingEnd) != QLatin1String("standing"))
        return lacking({base::said("the time of the five rises to the fifth standing")});
    const int balance = balanceScore(holds[0], holds[1], holds[2]);
    const int walk = walkScore(parts[3].number());
    const int rises = risesScore(parts[4].number());
    return {values::Quantity{static_cast<double>(balance + walk + rises), measure.unit},
            base::said("balance %1 + walk %2 + rises %3").arg(balance, walk, rises)};
}

Outcome dualTaskCost(const Measure& measure, const Parts& parts)
{
    if (const base::Messages missing = namesWithout(parts, hasPositive); !missing.empty())
        return lacking(missing);
    const double single = *parts[0].number();
    const double dual = *parts[1].number();
    return {values::Quantity{100 * (dual - single) / single, measure.unit},
            base::said("%1 alone, %2 with the task").arg(amountOf(parts[0]), amountOf(parts[1]))};
}

Outcome outcomeOf(const Measure& measure, const Parts& parts)
{
    switch (measure.computed->rule) {
    case Computing::Speed:
    case Computing::Cadence:
    case Computing::StepLength:
        return ofWalk(measure, parts);
    case Computing::SumOfItems:
        return sumOfItems(measure, parts);
    case Computing::ShortBattery:
        return shortBattery(measure, parts);
    case Computing::DualTaskCost:
        break;
    }
    return dualTaskCost(measure, parts);
}

} // namespace

std::optional<Occasion> derived(const Visit& visit, const Measure& measure,
                                const catalogue::Catalogue& catalogue)
{
    if (!measure.computed)
        return std::nullopt;
    const Parts parts = partsOf(measure, visit, catalogue);
    if (std::ranges::none_of(parts, isDoneOrTried))
        return std::nullopt;
    Outcome outcome = outcomeOf(measure, parts);
    Occasion computed = occasionOf(visit, {});
    computed.finding.measure = measure.id;
    computed.finding.value = std::move(outcome.value);
    computed.finding.trials = std::move(outcome.trials);
    if (parts.size() == 1)
        computed.finding.exceptions = parts.front().occasion->finding.exceptions;
    computed.conditions = sharedConditions(parts);
    computed.computedFrom = std::move(outcome.from);
    return computed;
}

} // namespace records
