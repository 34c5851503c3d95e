#pragma once

#include "core/base/error.h"
#include "core/records/visit.h"

namespace exchange
{

/// Where something stands in what is read, whatever its format is.
struct Place {
    const char* words =
        ""; ///< of the format, marked for translators, with %1 the number, %2 the part and %3 what is allowed
    int number = 0;         ///< of a line, an entry …
    const char* whole = ""; ///< the same of all that stands there, with %1 the number and %2 what is wrong

    bool operator==(const Place&) const = default;
};

/// The place of a line of a CSV file, and of a resource in a Bundle of FHIR, counted from 1.
Place lineOf(int number);
Place entryOf(int number);

/// A fault at a part of what stands there: "Line 14, column value: …" with what is allowed as a sentence.
base::Error wrongAt(const Place& place, const QString& part, const base::Message& allowed);
/// A fault of all of it, as a sentence.
base::Error wrongAt(const Place& place, const base::Error& wrong);

/// Where a finding stands: the places of its trials, one after another from the first.
struct Origin {
    int firstTrial = 1;
    std::vector<Place> places;
    bool saysCapped = false; ///< whether the cap was reached stands there
};

/// One visit that was read, a draft without author and ids. A condition of the visit is the first that is
/// said of it; a finding of which something else is said, or nothing, holds that as its own exception, as it
/// holds the conditions of its test alone.
struct ImportedVisit {
    records::Visit visit;
    std::vector<Origin> origins; ///< of each of the visit's findings
    QStringList conditions;      ///< those of which something could be said
};

/// One patient that was read, without id.
struct ImportedPatient {
    Place place; ///< where it begins
    records::Patient patient;
    std::vector<ImportedVisit> visits; ///< oldest first
};

} // namespace exchange
