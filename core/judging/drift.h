#pragma once

#include "core/judging/glance.h"

namespace judging
{

/// Numbers that each differ within error, and more of them one way than chance would have it.
struct Drift {
    Verdict direction = Verdict::Worse; ///< or better
    int agreeing = 0;
    int all = 0; ///< that differ at all from their first comparable result
    double p = 1;

    bool operator==(const Drift&) const = default;
};

/// Of the results in the glance's order, each held against its first comparable one. Empty unless the sign
/// test reaches 0.05; it takes them for independent, which results of one person are not. What is worked out
/// of another or is an item of its total does not count twice.
std::optional<Drift> driftOf(const Glance& glance, const catalogue::Catalogue& catalogue);

} // namespace judging
