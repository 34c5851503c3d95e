#include "core/judging/course.h"

#include "core/judging/change.h"
#include "core/judging/run_trend.h"

#include <algorithm>

namespace judging
{

namespace
{

using records::Occasion;
using Run = std::vector<const Occasion*>;

/// The verdict on another value against the same reference, by the same row.
Verdict verdictBy(const Comparison& held, const Occasion& occasion, const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(held.measure);
    if (measure == nullptr)
        return Verdict::NoThreshold;
    if (held.tier == Tier::Direction)
        return verdictOfStep(held.reference.finding, occasion.finding, measure->better);
    if (!held.threshold || !isNumber(occasion))
        return Verdict::NoThreshold;
    return verdictOf(*held.threshold, *values::number(held.reference.finding.value),
                     *values::number(occasion.finding.value), measure->better);
}

int confirmAfterDays(const Ground& ground)
{
    const QString& population = ground.patient.population;
    constexpr int daysOfAWeek = 7;
    if (ground.judging.compositeWeeks &&
        ground.catalogue.isWithin(population, QStringLiteral("multiple-sclerosis")))
        return *ground.judging.compositeWeeks * daysOfAWeek;
    return ground.catalogue.confirmAfterDays(population);
}

/// The first confirmed change after `from`, and the place of the visit that confirmed it.
std::optional<std::pair<Confirmation, size_t>> nextConfirmation(const Comparison& held, const Run& run,
                                                                size_t from, int days, const Ground& ground)
{
    if (!held.threshold)
        return std::nullopt;
    const Occasion* seen = nullptr;
    Verdict direction = Verdict::WithinError;
    for (size_t place = from + 1; place < run.size(); ++place) {
        const Verdict verdict = verdictBy(held, *run[place], ground.catalogue);
        if (!isBeyondError(verdict)) { // also "unable"
            seen = nullptr;
        } else if (seen == nullptr || verdict != direction) {
            seen = run[place];
            direction = verdict;
        } else if (seen->day.daysTo(run[place]->day) >= days) {
            return std::pair(
                Confirmation{pointOf(*run[from]), pointOf(*seen), pointOf(*run[place]), direction}, place);
        }
    }
    return std::nullopt;
}

/// `held` is the last number of the run against its first.
std::vector<Confirmation> confirmationsOf(Comparison held, const Run& run, int days, const Ground& ground)
{
    std::vector<Confirmation> all;
    const Occasion& last = *numbersOf(run).back();
    auto from =
        size_t(std::ranges::find_if(run, [](const Occasion* each) { return isNumber(*each); }) - run.begin());
    while (const auto next = nextConfirmation(held, run, from, days, ground)) {
        all.push_back(next->first);
        from = next->second;
        held = ground.compared(*run[from], last);
    }
    return all;
}

/// Since when the change of a comparison has been there without a break, the reference being one; its own day
/// where no visit in between says so. Who was unable in between broke it.
QDate seenSince(const Comparison& held, const Run& run, const catalogue::Catalogue& catalogue)
{
    QDate since = held.now.day;
    for (size_t place = run.size(); place > 0; --place) {
        const Occasion& between = *run[place - 1];
        if (verdictBy(held, between, catalogue) != held.verdict)
            break;
        since = between.day;
    }
    return since;
}

bool isOtherBandOf(const catalogue::Threshold& row, const catalogue::Threshold& used)
{
    return row.id != used.id && row.measure == used.measure && row.bandOf == used.bandOf &&
           row.answers == used.answers && row.source == used.source && row.population == used.population &&
           row.hand == used.hand && row.condition == used.condition;
}

std::optional<catalogue::Threshold> otherBandOf(const catalogue::Threshold& used, double level,
                                                const catalogue::Catalogue& catalogue)
{
    if (isInBand(used, level))
        return std::nullopt;
    const auto found = std::ranges::find_if(catalogue.thresholds, [&](const catalogue::Threshold& row) {
        return isOtherBandOf(row, used) && isInBand(row, level);
    });
    return found == catalogue.thresholds.end() ? std::nullopt : std::optional(*found);
}

} // namespace

RunPoint pointOf(const Occasion& occasion)
{
    return {occasion.visit, occasion.day, values::number(occasion.finding.value),
            values::isUnable(occasion.finding.value)};
}

Run numbersOf(const Run& run)
{
    Run numbers;
    std::ranges::copy_if(run, std::back_inserter(numbers),
                         [](const Occasion* occasion) { return isNumber(*occasion); });
    return numbers;
}

Comparison Ground::compared(const Occasion& reference, const Occasion& now, Averaged averaged) const
{
    const auto levels = [&](const Occasion& of) {
        return levelsAt(of.visit, now.finding.measure, now.finding.side, visits, catalogue);
    };
    Comparison held = comparison(catalogue, patient, reference, now, levels(reference), averaged, judging);
    if (held.threshold && !held.threshold->row.bandOf.isEmpty()) {
        const auto present = levels(now);
        const auto level = present.find(held.threshold->row.bandOf);
        if (level != present.end())
            held.otherBand = otherBandOf(held.threshold->row, level->second, catalogue);
    }
    return held;
}

Course courseOf(const Run& run, const Ground& ground)
{
    Course course;
    for (const Occasion* occasion : run)
        course.run.push_back(pointOf(*occasion));
    const Run numbers = numbersOf(run);
    course.confirmAfterDays = confirmAfterDays(ground);
    std::optional<Comparison> ends;
    if (numbers.size() > 1) {
        ends = ground.compared(*numbers.front(), *numbers.back());
        course.confirmations = confirmationsOf(*ends, run, course.confirmAfterDays, ground);
    }
    course.trend = trendOf(run, ends, course.confirmAfterDays, ground);
    return course;
}

void strengthen(Comparison& held, statistics::FlagRule rule, const Run& run, const Course& course,
                const Ground& ground)
{
    if (!directionOf(held.verdict) && held.verdict != Verdict::Changed)
        return;
    const QDate since = seenSince(held, run, ground.catalogue);
    held.since = since;
    const bool isFirst = held.reference.visit == run.front()->visit;
    const bool isConfirmed = since < held.now.day && since.daysTo(held.now.day) >= course.confirmAfterDays;
    if (isFirst && course.trend && course.trend->direction &&
        course.trend->direction == directionOf(held.verdict)) {
        held.strength = course.trend->strength;
        held.raised = course.trend->raised;
        return;
    }
    held.strength = isConfirmed ? Strength::Confirmed : Strength::SeenOnce;
    rule = isConfirmed ? statistics::FlagRule::Confirmed : rule;
    held.raised = raisedBy(rule, int(numbersOf(run).size()), held, ground);
}

} // namespace judging
