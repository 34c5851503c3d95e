#include "core/judging/outcome.h"

#include "core/judging/room.h"
#include "core/judging/run_trend.h"
#include "core/records/codes.h"
#include "core/records/normal.h"
#include "core/statistics/distributions.h"
#include "core/statistics/multiplicity.h"
#include "core/statistics/plan.h"
#include "core/statistics/scatter.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>

namespace judging
{

namespace
{

using catalogue::Measure;

constexpr std::array kinds = {"became-unable", "became-able", "worse",     "better", "changed",
                              "step-worse",    "step-better", "as-before", "first",  "not-compared"};
constexpr std::array sayings = {"first-visit", "trend", "reversal"};

constexpr std::array weakestFirst = {Strength::None, Strength::SeenOnce, Strength::TrendSeenOnce,
                                     Strength::Confirmed, Strength::Sustained};

auto rank(Strength strength)
{
    return std::ranges::find(weakestFirst, strength) - weakestFirst.begin();
}

/// Since when the latest results are all unable, or all not; and whether there was one before that.
struct Streak {
    QDate since;
    bool hasBefore = false;
};

Streak streakOf(const std::vector<RunPoint>& run)
{
    const auto end = std::find_if(run.rbegin(), run.rend(), [&](const RunPoint& point) {
        return point.isUnable != run.back().isUnable;
    });
    return {std::prev(end)->day, end != run.rend()};
}

/// Of a result with an earlier one, which the baseline is.
std::vector<Claim> claimsOf(const Change& change)
{
    std::vector<Claim> claims;
    const Comparison& first = *change.baseline;
    const auto& trend = change.course.trend;
    const auto direction = trend ? trend->direction : std::nullopt;
    if (isBeyondError(first.verdict))
        claims.push_back({Says::FirstVisit, first.verdict, first.strength,
                          direction == first.verdict ? trend->since : first.since.value_or(change.now.day)});
    if (direction && direction != first.verdict)
        claims.push_back({Says::Trend, *direction, trend->strength, trend->since});
    if (trend && trend->reversal)
        claims.push_back(
            {Says::Reversal, trend->reversal->direction, trend->reversal->strength, trend->reversal->since});
    return claims;
}

/// The strongest of this direction.
std::optional<Claim> strongest(const std::vector<Claim>& claims, Verdict direction)
{
    std::optional<Claim> found;
    for (const Claim& claim : claims) {
        if (claim.direction == direction && (!found || rank(claim.strength) > rank(found->strength)))
            found = claim;
    }
    return found;
}

double beyond(double z, const RunError& error)
{
    return error.own ? statistics::studentShareBeyond(std::abs(z),
                                                      statistics::publishedDegrees + error.own->degrees)
                     : 2 * statistics::normalShareBelow(-std::abs(z));
}

/// Each way that error was looked at, with its chance; a turn that is not there has none.
struct Ways {
    int looked = 0;
    double least = 1;

    void add(double chance)
    {
        ++looked;
        least = std::min(least, chance);
    }
};

std::optional<double> chanceOf(const Change& change)
{
    Ways ways;
    const Comparison& first = *change.baseline;
    if (first.own)
        ways.add(statistics::scatterShareBeyond(first.own->visits, std::abs(first.own->t)));
    else if (first.z)
        ways.add(2 * statistics::normalShareBelow(-std::abs(*first.z)));
    else if (first.threshold) // found by experience: what is beyond it is so in one of twenty
        ways.add(isBeyondError(first.verdict) ? 1 - judgedAt : 1);
    if (const auto& trend = change.course.trend) {
        if (trend->orderP)
            ways.add(*trend->orderP);
        if (trend->z && trend->error)
            ways.add(beyond(*trend->z, *trend->error));
        if (trend->z && trend->n >= statistics::firstTurn) {
            const int pairs = trend->n - statistics::firstTurn + 1;
            ways.add(trend->reversal && trend->error ? pairs * beyond(trend->reversal->z, *trend->error) : 1);
        }
    }
    return ways.looked == 0 ? std::nullopt : std::optional(std::min(1.0, ways.looked * ways.least));
}

/// Signs that were not seen at the last result, which there is.
QStringList newSignsOf(const Change& change)
{
    QStringList signs = change.now.finding.signs;
    for (const QString& before : change.previous->reference.finding.signs)
        signs.removeAll(before);
    return signs;
}

double sizeOf(const Change& change, const Outcome& outcome, const Measure& measure)
{
    const Comparison& first = *change.baseline;
    if (outcome.claim && outcome.claim->by == Says::Reversal)
        return std::abs(change.course.trend->reversal->z / change.course.trend->reversal->bound);
    if (first.own)
        return std::abs(first.own->t) / first.own->limit;
    if (first.steps)
        return std::abs(*first.steps);
    return std::abs(inLimits(first, measure.better).value_or(0));
}

/// Without a claim.
OutcomeKind quietKindOf(const Change& change, const Comparison& held)
{
    switch (held.verdict) {
    case Verdict::NotComparable:
        return OutcomeKind::NotCompared;
    case Verdict::StepWorse:
        return OutcomeKind::StepWorse;
    case Verdict::StepBetter:
        return OutcomeKind::StepBetter;
    case Verdict::Changed:
        return OutcomeKind::Changed;
    case Verdict::BecameUnable:
    case Verdict::BecameAble:
    case Verdict::Better:
    case Verdict::Worse:
    case Verdict::WithinError:
    case Verdict::NoThreshold:
    case Verdict::Same:
        break;
    }
    return newSignsOf(change).isEmpty() ? OutcomeKind::AsBefore : OutcomeKind::Changed;
}

/// Walking, rising, standing, the scales of these, then the limbs, and last what is a sign alone: what a
/// person can do before what an examiner sees. Common practice; no source is known for the order.
int activityOf(const Measure& measure)
{
    static const QStringList sections = {QStringLiteral("timed-walks"),
                                         QStringLiteral("gait-observed"),
                                         QStringLiteral("special-walks"),
                                         QStringLiteral("rising"),
                                         QStringLiteral("balance"),
                                         QStringLiteral("scales"),
                                         QStringLiteral("upper-limb-coordination"),
                                         QStringLiteral("lower-limb-coordination")};
    const bool isSign = measure.kind == catalogue::Kind::Choice && measure.section != QLatin1String("scales");
    const qsizetype place = isSign ? -1 : sections.indexOf(measure.section);
    return int(place < 0 ? sections.size() : place);
}

Outcome outcomeOf(const Change& change, const Measure& measure)
{
    Outcome outcome;
    const Comparison* held = decidingOf(change);
    if (held == nullptr) {
        outcome.kind = OutcomeKind::First;
        return outcome;
    }
    outcome.newSigns = newSignsOf(change);
    outcome.tier = held->tier;
    if (!held->comparability.isComparable()) {
        outcome.kind = OutcomeKind::NotCompared;
        return outcome;
    }
    if (measure.countsEvents) {
        const bool isWorthAWord = values::number(change.now.finding.value).value_or(0) > 0;
        outcome.kind = isWorthAWord ? OutcomeKind::Changed : OutcomeKind::AsBefore;
        outcome.since = isWorthAWord ? std::optional(change.now.day) : std::nullopt;
        return outcome;
    }
    const std::vector<Claim> claims = claimsOf(change);
    const auto worse = strongest(claims, Verdict::Worse);
    const auto better = strongest(claims, Verdict::Better);
    outcome.chance = chanceOf(change);
    const Streak streak = streakOf(change.course.run);
    const bool isUnable = values::isUnable(change.now.finding.value);
    const bool isNewlyAble = streak.hasBefore && (held->verdict == Verdict::BecameAble ||
                                                  change.previous->verdict == Verdict::BecameAble);
    if (isUnable ? streak.hasBefore : isNewlyAble && !worse) {
        outcome.kind = isUnable ? OutcomeKind::BecameUnable : OutcomeKind::BecameAble;
        outcome.since = streak.since;
        outcome.isSure = true;
        outcome.activity = activityOf(measure);
        return outcome;
    }
    outcome.claim = worse ? worse : better;
    if (worse && better)
        outcome.besides = better;
    if (outcome.claim) {
        outcome.kind = worse ? OutcomeKind::Worse : OutcomeKind::Better;
        outcome.since = outcome.claim->since;
        outcome.mayBePractice =
            !worse && change.practiceUntil && held->reference.day <= *change.practiceUntil;
    } else {
        outcome.kind = quietKindOf(change, *held);
        if (outcome.kind != OutcomeKind::AsBefore)
            outcome.since = held->since.value_or(change.now.day);
    }
    outcome.size = sizeOf(change, outcome, measure);
    return outcome;
}

/// Benjamini and Hochberg, over all that an error judges.
void holdFalse(std::vector<Outcome>& outcomes)
{
    std::vector<double> chances;
    for (const Outcome& outcome : outcomes) {
        if (outcome.chance)
            chances.push_back(*outcome.chance);
    }
    const std::vector<bool> stays = statistics::benjaminiHochberg(chances, falseShare);
    size_t place = 0;
    for (Outcome& outcome : outcomes) {
        if (outcome.chance && stays[place++] && outcome.claim)
            outcome.isSure = true;
    }
}

/// A speed and the time it is worked out from are one result: either is as sure as the other.
void alignComputed(std::vector<Outcome>& outcomes, const std::vector<Change>& changes,
                   const catalogue::Catalogue& catalogue)
{
    for (size_t place = 0; place < changes.size(); ++place) {
        const Measure* measure = catalogue.measure(changes[place].measure);
        if (measure == nullptr || !measure->computed || measure->computed->parts.size() != 1 ||
            changes[place].now.computedFrom.isEmpty())
            continue;
        const auto part = std::ranges::find_if(changes, [&](const Change& each) {
            return each.measure == measure->computed->parts.front() && each.side == changes[place].side;
        });
        if (part == changes.end())
            continue;
        Outcome& other = outcomes[size_t(part - changes.begin())];
        Outcome& own = outcomes[place];
        if (own.claim && other.claim && own.claim->direction == other.claim->direction)
            own.isSure = other.isSure = own.isSure || other.isSure;
    }
}

} // namespace

QString code(OutcomeKind kind)
{
    return QString::fromLatin1(kinds.at(static_cast<size_t>(kind)));
}

std::optional<OutcomeKind> outcomeKindFromCode(const QString& code)
{
    return records::fromCode<OutcomeKind>(kinds, code);
}

QString code(Says says)
{
    return QString::fromLatin1(sayings.at(static_cast<size_t>(says)));
}

std::optional<Says> saysFromCode(const QString& code)
{
    return records::fromCode<Says>(sayings, code);
}

bool isOneStep(const Outcome& outcome, const Measure& measure)
{
    const bool isStep = outcome.kind == OutcomeKind::StepWorse || outcome.kind == OutcomeKind::StepBetter;
    return isStep && measure.kind == catalogue::Kind::Grade && outcome.size < 2;
}

std::optional<Verdict> wayOf(const Outcome& outcome, const Change& change, const Measure& measure)
{
    switch (outcome.kind) {
    case OutcomeKind::BecameUnable:
    case OutcomeKind::Worse:
    case OutcomeKind::StepWorse:
        return Verdict::Worse;
    case OutcomeKind::BecameAble:
    case OutcomeKind::Better:
    case OutcomeKind::StepBetter:
        return Verdict::Better;
    case OutcomeKind::AsBefore:
    case OutcomeKind::First:
    case OutcomeKind::NotCompared:
        return std::nullopt;
    case OutcomeKind::Changed:
        break;
    }
    if (measure.countsEvents)
        return Verdict::Worse;
    const Comparison* held = decidingOf(change);
    const auto normal = records::normalValue(measure);
    if (held == nullptr || !normal || measure.kind != catalogue::Kind::Choice)
        return std::nullopt;
    const bool wasNormal = held->reference.finding.value == *normal;
    const bool isNormal = change.now.finding.value == *normal;
    if (wasNormal == isNormal)
        return std::nullopt;
    return isNormal ? Verdict::Better : Verdict::Worse;
}

const Comparison* decidingOf(const Change& change)
{
    if (!change.baseline || !change.previous)
        return nullptr;
    const bool isWordAgain =
        change.baseline->verdict == Verdict::Same && change.previous->verdict == Verdict::Changed;
    return isWordAgain || !change.baseline->comparability.isComparable() ? &*change.previous
                                                                         : &*change.baseline;
}

std::vector<Outcome> outcomesOf(const std::vector<Change>& changes, const catalogue::Catalogue& catalogue)
{
    std::vector<Outcome> outcomes;
    for (const Change& change : changes) {
        const Measure* measure = catalogue.measure(change.measure);
        outcomes.push_back(measure != nullptr ? outcomeOf(change, *measure) : Outcome{});
    }
    holdFalse(outcomes);
    alignComputed(outcomes, changes, catalogue);
    return outcomes;
}

std::vector<size_t> byWeight(const std::vector<Outcome>& outcomes)
{
    std::vector<size_t> places(outcomes.size());
    std::iota(places.begin(), places.end(), size_t(0));
    const auto weight = [&](size_t place) {
        const Outcome& each = outcomes[place];
        const auto strength = each.claim ? rank(each.claim->strength) : 0;
        const qint64 day = each.since ? each.since->toJulianDay() : 0;
        return std::tuple(int(each.kind), each.activity, !each.isSure, -strength, int(each.tier), -each.size,
                          -day);
    };
    std::ranges::stable_sort(places, {}, weight);
    return places;
}

double chanceOfAny(const std::vector<Outcome>& outcomes, Verdict direction)
{
    std::vector<double> chances;
    for (const Outcome& outcome : outcomes) {
        if (outcome.chance)
            chances.push_back(outcome.claim && outcome.claim->direction == direction ? *outcome.chance : 1);
    }
    return statistics::simes(chances);
}

} // namespace judging
