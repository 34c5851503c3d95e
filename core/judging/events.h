#pragma once

#include "core/records/finding.h"
#include "core/records/ids.h"

namespace catalogue
{
struct Catalogue;
}

namespace judging
{

/// A turn on the time line of one measure that no slope shows.
struct Event {
    enum class Kind { BecameUnable, BecameAble, SidesDiffer, SidesAlike };

    records::VisitId visit;
    QDate day;
    Kind kind = Kind::BecameUnable;
    records::Side side = records::Side::None; ///< that became unable or able; none of sides that differ

    bool operator==(const Event&) const = default;
};

/// The turns of a measure over the visits given, oldest first. The sides differ where right and left of one
/// visit lie further apart than measurement error either way, by the row for this patient; the first such
/// visit is an event, and so is the first at which they are alike again.
std::vector<Event> events(const QString& measure, const std::vector<records::Visit>& visits,
                          const records::Patient& patient, const catalogue::Catalogue& catalogue);

} // namespace judging
