#pragma once

#include "core/base/result.h"
#include "core/records/happening.h"
#include "core/records/summary.h"

#include <QByteArray>

namespace exchange
{

/// A file of events is no larger.
inline constexpr qint64 largestHappeningsFile = 20'000'000;

/// What a file of events adds to the records.
struct HappeningsAddition {
    std::vector<records::Happening> added;   ///< new; without an id where the file names none
    std::vector<records::Happening> changed; ///< what the file says, with the version it follows
    int known = 0;                           ///< the records hold it already
    int takenBack = 0;                       ///< the records took it back, and it stays so

    bool isNothing() const { return added.empty() && changed.empty(); }
};

/// Events as a file that comes back as it was, formulas and all: patient, kind, from, until, injury, words,
/// uid. Patients are named by their record number. Refused where one of the events is of a patient without
/// one, since the file could not say whose.
base::Result<QByteArray> happeningsCsv(const std::vector<records::Happening>& happenings,
                                       const std::vector<records::PatientSummary>& patients);

/// Reads such a file, whole or not at all; the columns may stand in any order. `newest` are the newest
/// versions of what the records hold, those taken back among them. An event is known by its uid; one without
/// is the same as one that says the same. The error names every fault of the file by its line, up to a
/// thousand of them.
base::Result<HappeningsAddition> happeningsFromCsv(const QByteArray& bytes,
                                                   const std::vector<records::PatientSummary>& patients,
                                                   const std::vector<records::Happening>& newest,
                                                   QDate today);

} // namespace exchange
