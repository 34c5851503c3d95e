#pragma once

#include "core/records/ids.h"

#include <optional>
#include <vector>

namespace session
{

/// The two plumb lines: the visit that is looked at, and the earlier one it is held against.
struct Focus {
    std::optional<records::PatientId> patient;
    std::optional<records::VisitId> visit;     ///< this visit
    std::optional<records::VisitId> reference; ///< empty: none is chosen

    bool operator==(const Focus&) const = default;
};

// Of the functions below `onRecord` are the visits of the patient, oldest first, with those entered in error.

/// The place of a visit among those on record; −1 where it is none of them.
qsizetype placeOf(const std::vector<records::Visit>& onRecord, const std::optional<records::VisitId>& id);

/// The focus at the visit wished for, or at the newest that counts where that one is not on record. A
/// reference that does not count or does not lie before the visit is dropped.
Focus settled(Focus focus, const std::optional<records::VisitId>& wished,
              const std::vector<records::Visit>& onRecord);

/// The focus with the visit moved by `step` places; unchanged where it would leave the record.
Focus withVisitMoved(const Focus& focus, int step, const std::vector<records::Visit>& onRecord);

/// The focus with the reference moved by `step` places, past what was entered in error. Moved up to the visit
/// it is dropped; unchanged where it would leave the record.
Focus withReferenceMoved(const Focus& focus, int step, const std::vector<records::Visit>& onRecord);

} // namespace session
