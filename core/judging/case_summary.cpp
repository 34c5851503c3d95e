#include "core/judging/case_summary.h"

#include "core/statistics/multiplicity.h"

#include <algorithm>
#include <array>

namespace judging
{

namespace
{

/// What a list names before what; the rest it does not name.
constexpr std::array named = {OutcomeKind::BecameUnable, OutcomeKind::Worse,   OutcomeKind::BecameAble,
                              OutcomeKind::Better,       OutcomeKind::Changed, OutcomeKind::StepWorse,
                              OutcomeKind::StepBetter};

auto rank(OutcomeKind kind)
{
    return std::ranges::find(named, kind);
}

/// A single step, and a number of which only the direction is known, may be chance.
bool isUntold(const Outcome& outcome, const catalogue::Measure& measure)
{
    const bool isStep = outcome.kind == OutcomeKind::StepWorse || outcome.kind == OutcomeKind::StepBetter;
    return isStep && (measure.kind != catalogue::Kind::Grade || isOneStep(outcome, measure));
}

std::optional<Strongest> strongestOf(const Glance& glance, const catalogue::Catalogue& catalogue)
{
    const auto rankOf = [&](size_t each) {
        const catalogue::Measure* measure = catalogue.measure(glance.changes[each].measure);
        const Outcome& outcome = glance.outcomes[each];
        return measure == nullptr || isUntold(outcome, *measure) ? named.end() : rank(outcome.kind);
    };
    const auto place = std::ranges::min_element(glance.order, {}, rankOf);
    if (place == glance.order.end() || rankOf(*place) == named.end())
        return std::nullopt;
    const Outcome& outcome = glance.outcomes[*place];
    const Change& change = glance.changes[*place];
    Strongest strongest;
    strongest.measure = change.measure;
    strongest.side = change.side;
    strongest.kind = outcome.kind;
    strongest.isSure = outcome.isSure;
    strongest.since = outcome.since.value_or(glance.day);
    if (outcome.claim) {
        strongest.by = outcome.claim->by;
        strongest.strength = outcome.claim->strength;
    }
    return strongest;
}

bool isFlag(const Outcome& outcome)
{
    return rank(outcome.kind) <= rank(OutcomeKind::Better);
}

/// A word that was normal and is not any more.
bool isWorseWord(const Change& change, const Outcome& outcome, const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(change.measure);
    return measure != nullptr && measure->kind == catalogue::Kind::Choice &&
           outcome.kind == OutcomeKind::Changed && wayOf(outcome, change, *measure) == Verdict::Worse;
}

/// A fall with injury after the visit before, or ticked at this one.
bool hasInjury(const Glance& glance, const std::vector<records::Visit>& visits,
               const std::vector<records::Happening>& happenings, const catalogue::Catalogue& catalogue)
{
    const QDate after = visits.size() > 1 ? visits[visits.size() - 2].day : QDate();
    const bool isEvent = std::ranges::any_of(happenings, [&](const records::Happening& each) {
        return each.injury == records::Injury::Yes && (!after.isValid() || each.from >= after);
    });
    return isEvent || std::ranges::any_of(glance.changes, [&](const Change& change) {
               const catalogue::Measure* measure = catalogue.measure(change.measure);
               return measure != nullptr && measure->countsEvents && !change.now.finding.signs.isEmpty();
           });
}

} // namespace

std::optional<records::AsOf> summarisedVisit(const std::vector<records::Visit>& visits)
{
    const auto isSigned = [](const records::Visit& visit) {
        return visit.state != records::VisitState::Draft;
    };
    const auto last = std::find_if(visits.rbegin(), visits.rend(), isSigned);
    const auto shown = last != visits.rend() ? last : visits.rbegin();
    return shown != visits.rend() ? std::optional(records::AsOf(shown->id, visits)) : std::nullopt;
}

CaseSummary caseSummary(const Ground& ground, const std::vector<records::Happening>& happenings)
{
    CaseSummary summary;
    const auto until = summarisedVisit(ground.visits);
    if (!until)
        return summary;
    const auto glance =
        glanceAt(until->visit()->id, {}, {until->visits(), ground.patient, ground.catalogue, ground.judging});
    summary.visit = glance->day;
    summary.strongest = strongestOf(*glance, ground.catalogue);
    summary.isFirst = !glance->changes.empty() && !glance->hasEarlier();
    const auto judged =
        std::ranges::count_if(glance->outcomes, [](const Outcome& each) { return each.chance.has_value(); });
    summary.flags = int(std::ranges::count_if(glance->outcomes, isFlag));
    summary.expectedFalse = statistics::expectedFalseFlags(int(judged), judgedAt);
    summary.chanceWorse = chanceOfAny(glance->outcomes, Verdict::Worse);
    summary.chanceBetter = chanceOfAny(glance->outcomes, Verdict::Better);
    for (size_t place = 0; place < glance->outcomes.size(); ++place) {
        const Outcome& outcome = glance->outcomes[place];
        summary.isWorse = summary.isWorse || outcome.kind == OutcomeKind::Worse;
        summary.isBetter = summary.isBetter || outcome.kind == OutcomeKind::Better;
        summary.isUnable = summary.isUnable || outcome.kind == OutcomeKind::BecameUnable;
        summary.hasReversed = summary.hasReversed ||
                              (outcome.kind == OutcomeKind::Worse && outcome.claim->by == Says::Reversal);
        summary.hasWorseWord =
            summary.hasWorseWord || isWorseWord(glance->changes[place], outcome, ground.catalogue);
    }
    summary.hasInjury = hasInjury(*glance, until->visits(), happenings, ground.catalogue);
    return summary;
}

} // namespace judging
