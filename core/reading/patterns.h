#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/visit.h"

#include <compare>

namespace reading
{

/// A finding of the visit, or the place of one that is not there.
struct Place {
    QString measure;
    records::Side side = records::Side::None;

    bool operator==(const Place&) const = default;
    std::strong_ordering operator<=>(const Place&) const = default;
};

/// What speaks for a pattern or against it: the findings at these places together, by the rule of this number
/// among the pattern's rules for it or against it.
struct Bearing {
    std::vector<Place> places;
    size_t rule = 0;

    bool operator==(const Bearing&) const = default;
};

/// One pattern in one visit. Nothing here is counted, weighed or ordered by weight.
struct PatternReading {
    QString pattern;           ///< id
    std::vector<Place> needed; ///< what it needs and was not tested; while there is any, nothing else is said
    std::vector<Bearing> supports; ///< in the order of the catalogue
    std::vector<Bearing> contradicts;
    std::vector<Place> notTested; ///< what it looks at and was not tested, or tried and not able

    bool operator==(const PatternReading&) const = default;
};

/// Every pattern of the catalogue, in its order.
std::vector<PatternReading> readings(const records::Visit& visit, const catalogue::Catalogue& catalogue);

} // namespace reading
