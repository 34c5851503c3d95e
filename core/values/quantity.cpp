#include "core/values/quantity.h"

#include <algorithm>
#include <cmath>

namespace values
{

std::optional<Quantity> Quantity::in(Unit other) const
{
    if (other == unit)
        return *this;
    if (unit == Unit::Metre && other == Unit::Centimetre)
        return Quantity{number * 100, other};
    if (unit == Unit::Centimetre && other == Unit::Metre)
        return Quantity{number / 100, other};
    return std::nullopt;
}

bool exceeds(double a, double b)
{
    constexpr double noise = 1e-9;
    return a - b > noise * std::max({1.0, std::abs(a), std::abs(b)});
}

} // namespace values
