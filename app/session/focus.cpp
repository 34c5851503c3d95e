#include "app/session/focus.h"

#include "core/records/visit.h"

#include <algorithm>

namespace session
{

using records::Visit;

qsizetype placeOf(const std::vector<Visit>& onRecord, const std::optional<records::VisitId>& id)
{
    const auto found = std::ranges::find_if(onRecord, [&](const Visit& visit) { return visit.id == id; });
    return found == onRecord.end() ? -1 : found - onRecord.begin();
}

Focus settled(Focus focus, const std::optional<records::VisitId>& wished, const std::vector<Visit>& onRecord)
{
    focus.visit.reset();
    if (placeOf(onRecord, wished) >= 0) {
        focus.visit = wished;
    } else if (!onRecord.empty()) {
        const auto newest = std::find_if(onRecord.rbegin(), onRecord.rend(),
                                         [](const Visit& visit) { return !visit.withdrawn; });
        focus.visit = newest == onRecord.rend() ? onRecord.back().id : newest->id;
    }
    const qsizetype reference = placeOf(onRecord, focus.reference);
    if (reference < 0 || onRecord[size_t(reference)].withdrawn || reference >= placeOf(onRecord, focus.visit))
        focus.reference.reset();
    return focus;
}

Focus withVisitMoved(const Focus& focus, int step, const std::vector<Visit>& onRecord)
{
    const qsizetype place = placeOf(onRecord, focus.visit) + step;
    if (place < 0 || place >= qsizetype(onRecord.size()))
        return focus;
    return settled(focus, onRecord[size_t(place)].id, onRecord);
}

Focus withReferenceMoved(const Focus& focus, int step, const std::vector<Visit>& onRecord)
{
    const qsizetype visit = placeOf(onRecord, focus.visit);
    qsizetype place = focus.reference ? placeOf(onRecord, focus.reference) : visit;
    do {
        place += step;
    } while (place >= 0 && place < visit && onRecord[size_t(place)].withdrawn);
    Focus moved = focus;
    if (place >= visit)
        moved.reference.reset();
    else if (place >= 0)
        moved.reference = onRecord[size_t(place)].id;
    return moved;
}

} // namespace session
