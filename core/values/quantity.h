#pragma once

#include "core/values/unit.h"

namespace values
{

/// A finite number with its unit.
struct Quantity {
    double number = 0;
    Unit unit = Unit::One;

    bool operator==(const Quantity&) const = default;

    /// The same quantity in another unit of the same kind. Empty for metres into seconds.
    std::optional<Quantity> in(Unit other) const;
};

/// Whether `a` is larger than `b` by more than floating-point noise (0.3 − 0.1 does not exceed 0.2).
bool exceeds(double a, double b);

} // namespace values
