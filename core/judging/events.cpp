#include "core/judging/events.h"

#include "core/judging/change.h"
#include "core/records/visit.h"

#include <algorithm>

namespace judging
{

namespace
{

using records::Occasion;
using records::Side;
using records::Visit;

/// The turns of one side between able and unable.
void addTurns(std::vector<Event>& events, const std::vector<Occasion>& history)
{
    std::optional<bool> wasAble;
    for (const Occasion& occasion : history) {
        const bool isAble = values::isDone(occasion.finding.value);
        if (!isAble && !values::isUnable(occasion.finding.value))
            continue;
        if (wasAble && *wasAble != isAble)
            events.push_back({occasion.visit, occasion.day,
                              isAble ? Event::Kind::BecameAble : Event::Kind::BecameUnable,
                              occasion.finding.side});
        wasAble = isAble;
    }
}

/// Whether right and left differ beyond error at a visit. Empty where one side has no number or the row is
/// missing.
std::optional<bool> doSidesDiffer(const Visit& visit, const QString& measure, const Ground& ground)
{
    const auto right = records::occasionAt(visit, ground.catalogue, measure, Side::Right);
    const auto left = records::occasionAt(visit, ground.catalogue, measure, Side::Left);
    if (!right || !left)
        return std::nullopt;
    const Comparison leftAgainstRight = ground.compared(*right, *left);
    const Comparison rightAgainstLeft = ground.compared(*left, *right);
    if (!leftAgainstRight.threshold || !rightAgainstLeft.threshold)
        return std::nullopt;
    return isBeyondError(leftAgainstRight.verdict) && isBeyondError(rightAgainstLeft.verdict);
}

void addSides(std::vector<Event>& events, const QString& measure, const Ground& ground)
{
    bool didDiffer = false;
    for (const Visit& visit : ground.visits) {
        const auto differ = doSidesDiffer(visit, measure, ground);
        if (!differ || *differ == didDiffer)
            continue;
        didDiffer = *differ;
        events.push_back(
            {visit.id, visit.day, *differ ? Event::Kind::SidesDiffer : Event::Kind::SidesAlike, Side::None});
    }
}

} // namespace

std::vector<Event> events(const QString& id, const std::vector<Visit>& visits,
                          const records::Patient& patient, const catalogue::Catalogue& catalogue)
{
    std::vector<Event> found;
    const catalogue::Measure* measure = catalogue.measure(id);
    if (measure == nullptr)
        return found;
    const auto sides = measure->hasSides ? std::vector{Side::Right, Side::Left} : std::vector{Side::None};
    for (const Side side : sides)
        addTurns(found, records::history(visits, catalogue, id, side));
    if (measure->hasSides)
        addSides(found, id, {visits, patient, catalogue, {}});
    std::ranges::stable_sort(found, {}, &Event::day);
    return found;
}

} // namespace judging
