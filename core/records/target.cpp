#include "core/records/target.h"

#include <algorithm>

namespace records
{

std::vector<Target> newest(const std::vector<Target>& oldestFirst)
{
    std::vector<Target> found;
    for (const Target& target : oldestFirst) {
        const auto known = std::ranges::find_if(found, [&](const Target& other) {
            return other.measure == target.measure && other.side == target.side;
        });
        if (known == found.end())
            found.push_back(target);
        else
            *known = target;
    }
    return found;
}

std::vector<Target> inForce(const std::vector<Target>& oldestFirst)
{
    std::vector<Target> found = newest(oldestFirst);
    std::erase_if(found, [](const Target& each) { return !each.droppedFor.isEmpty(); });
    return found;
}

const Target* newestOf(const std::vector<Target>& oldestFirst, const QString& measure, Side side)
{
    const auto found = std::find_if(oldestFirst.rbegin(), oldestFirst.rend(), [&](const Target& target) {
        return target.measure == measure && target.side == side;
    });
    return found == oldestFirst.rend() ? nullptr : &*found;
}

} // namespace records
