#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/patient.h"
#include "core/records/visit.h"

#include <vector>

namespace visits
{

/// What a visit that is about to be signed leaves open. The pointers are into the catalogue.
struct Gaps {
    bool isEmpty = false;       ///< nothing is recorded
    bool isUnconfirmed = false; ///< the conditions were carried forward and nobody confirmed them
    std::vector<const catalogue::Measure*> blank; ///< tests asked for each time, in the form's order
    /// Not recorded, although a result of this visit can be compared with none without them.
    std::vector<const catalogue::Condition*> conditions;

    /// Red flags answered yes of which nothing is said to have been done: with one, nothing is signed.
    std::vector<const catalogue::RedFlag*> redFlags = {};

    bool isNone() const
    {
        return !isEmpty && !isUnconfirmed && blank.empty() && conditions.empty() && redFlags.empty();
    }
};

Gaps gapsOf(const records::Visit& visit, const records::Patient& patient,
            const catalogue::Catalogue& catalogue);

} // namespace visits
