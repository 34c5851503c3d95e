#include "core/judging/target_progress.h"

#include "core/judging/room.h"

#include <algorithm>
#include <array>

namespace judging
{

namespace
{

using catalogue::Direction;
using records::Occasion;

constexpr std::array states = {"reached-beyond-error", "reached-within-error", "not-reached", "not-seen",
                               "no-longer-looked-at"};

bool isReached(const records::Target& target, const records::Finding& finding,
               const catalogue::Measure& measure)
{
    const auto number = values::number(finding.value);
    if (!number)
        return false;
    if (measure.better == Direction::HigherIsBetter)
        return !values::exceeds(target.value, *number);
    return measure.better == Direction::LowerIsBetter && !isAtCap(finding, measure) &&
           !values::exceeds(*number, target.value);
}

} // namespace

QString code(TargetState state)
{
    return QString::fromLatin1(states.at(size_t(state)));
}

TargetProgress targetProgress(const records::Target& target, const Ground& ground, QDate today)
{
    TargetProgress found{target, TargetState::NotSeen, false, {}, {}};
    const catalogue::Measure* measure = ground.catalogue.measure(target.measure);
    const auto history = records::history(ground.visits, ground.catalogue, target.measure, target.side,
                                          ground.patient.declared);
    const auto now = std::find_if(history.rbegin(), history.rend(), [](const Occasion& occasion) {
        return values::isDone(occasion.finding.value) || values::isUnable(occasion.finding.value);
    });
    if (measure != nullptr && now != history.rend()) {
        found.now = *now;
        std::vector<Occasion> before(history.begin(), now.base() - 1);
        std::erase_if(before, [&](const Occasion& each) { return each.day > target.agreedOn; });
        const auto reference = now->day > target.agreedOn
                                   ? lastComparable(before, *now, ground.patient, ground.catalogue)
                                   : std::nullopt;
        if (reference)
            found.since = ground.compared(*reference, *now);
        if (!isReached(target, now->finding, *measure))
            found.state = TargetState::NotReached;
        else if (found.since && found.since->verdict == Verdict::Better)
            found.state = TargetState::ReachedBeyondError;
        else
            found.state = TargetState::ReachedWithinError;
    }
    if (!target.droppedFor.isEmpty())
        found.state = TargetState::NoLongerLookedAt;
    found.isOverdue = (found.state == TargetState::NotReached || found.state == TargetState::NotSeen) &&
                      target.by && *target.by < today;
    return found;
}

std::vector<TargetProgress> targetsAt(const std::vector<records::Target>& oldestFirst, const Ground& ground,
                                      QDate day)
{
    std::vector<records::Target> agreed = oldestFirst;
    std::erase_if(agreed, [&](const records::Target& each) { return each.agreedOn > day; });
    std::vector<TargetProgress> found;
    for (const records::Target& target : records::inForce(agreed))
        found.push_back(targetProgress(target, ground, day));
    return found;
}

} // namespace judging
