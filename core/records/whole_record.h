#pragma once

#include "core/records/happening.h"
#include "core/records/target.h"
#include "core/records/visit.h"

#include <vector>

namespace records
{

/// Everything the records hold of one patient but for letters.
struct WholeRecord {
    Patient patient;
    std::vector<Visit> visits;         ///< every version of every visit
    std::vector<Happening> happenings; ///< every version of every event
    std::vector<Asked> asked;
    std::vector<Target> targets; ///< every one ever agreed, oldest first

    bool operator==(const WholeRecord&) const = default;
};

/// What of the records is meant: of all of it where nothing is said.
struct Extent {
    std::optional<std::vector<PatientId>> patients;
    std::optional<QDate> from;  ///< the first day of visits and events
    std::optional<QDate> until; ///< the last
    QStringList measures;       ///< none: all

    bool isOfDays() const { return from || until; }
};

/// What of a record lies in the extent, whoever the patient is. A visit counts with all its versions where
/// one of them does; a declaration and a question only with their visits. Empty where days or measures are
/// meant and nothing of them is there.
std::optional<WholeRecord> within(WholeRecord record, const Extent& extent);

} // namespace records
