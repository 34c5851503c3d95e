#pragma once

#include "core/catalogue/own.h"
#include "core/exchange/whole_reading.h"

namespace exchange
{

/// What a whole record that was read adds to the records.
struct WholeAddition {
    records::WholeRecord added; ///< the patient whole, of all else what the records lack
    bool isPatientNew = false;
    /// Series that count no more: of the records, or among what is added.
    std::vector<std::pair<records::VisitId, records::Withdrawal>> withdrawn = {};
    int entries = 0; ///< events, questions, targets, choices, declarations and withdrawals among it

    bool isNothing() const { return !isPatientNew && added.visits.empty() && entries == 0; }
};

/// What is new in it. What the records hold stays: it must be the same in the file, or go on there where the
/// records end; everything else is a fault.
WholeAddition wholeAddition(const ReadRecord& read, const std::optional<records::WholeRecord>& stored,
                            bool isNumberTaken, Faults& faults);

/// Both parts of the catalogue; refused where an entry of one id says something else in each.
base::Result<catalogue::Own> bothParts(catalogue::Own here, const catalogue::Own& more);

} // namespace exchange
