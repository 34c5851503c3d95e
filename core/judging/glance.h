#pragma once

#include "core/judging/outcome.h"

namespace judging
{

/// A test that the visit before has a result of, and this one not, though its form holds it.
struct Lacking {
    QString measure;
    records::Side side = records::Side::None;
    std::optional<values::Missing> why; ///< empty: nothing was recorded

    bool operator==(const Lacking&) const = default;
};

/// One visit of a patient as lists and their heads tell it.
struct Glance {
    records::VisitId visit;
    QDate day;
    std::vector<Change> changes;   ///< in the catalogue's order
    std::vector<Outcome> outcomes; ///< of the changes
    std::vector<size_t> order;     ///< their places by weight
    std::vector<Lacking> lacking;  ///< in the order of the form

    bool hasEarlier() const; ///< whether anything could be held against an earlier visit
};

/// Empty where the visit is not among the ground's.
std::optional<Glance> glanceAt(const records::VisitId& visit,
                               const std::optional<records::VisitId>& reference, const Ground& ground);

} // namespace judging
