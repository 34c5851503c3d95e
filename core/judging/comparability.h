#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/occasion.h"
#include "core/records/visit.h"

#include <vector>

namespace judging
{

/// A condition that is not the same on both sides. An empty value was not recorded.
struct Mismatch {
    QString condition; ///< condition id
    QString before;
    QString now;

    bool isMissing() const { return before.isEmpty() || now.isEmpty(); }
    bool operator==(const Mismatch&) const = default;
};

/// Whether two results of one measure may be compared, and what speaks against it.
struct Comparability {
    std::vector<Mismatch> blocking; ///< any of these: not comparable
    std::vector<Mismatch> cautions; ///< comparable, but worth a word
    std::vector<Mismatch> declared; ///< not recorded, but declared equal by a clinician

    bool isComparable() const { return blocking.empty(); }
};

/// Unknown is not equal: a hard condition that was not recorded blocks as one that differs does.
Comparability comparability(const catalogue::Measure& measure, const catalogue::Catalogue& catalogue,
                            const QString& population, const records::Occasion& before,
                            const records::Occasion& now);

/// What was recorded otherwise for the whole of two visits and keeps some result of the later one from being
/// compared, in the catalogue's order. What one of them did not record is not among them.
std::vector<Mismatch> differing(const records::Visit& before, const records::Visit& now,
                                const QString& population, const catalogue::Catalogue& catalogue);

} // namespace judging
