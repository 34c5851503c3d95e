#include "core/base/rounding.h"

#include <cmath>

namespace base
{

double rounded(double number, int decimals)
{
    constexpr double slack = 1e-12; // of the number: what sums and quotients of decimals are off by
    const double scale = std::pow(10.0, decimals);
    const double scaled = std::abs(number) * scale;
    const double whole = std::floor(scaled * (1 + slack) + 0.5);
    return whole == 0 ? 0 : std::copysign(whole / scale, number);
}

QString fixed(double number, int decimals)
{
    return QString::number(rounded(number, decimals), 'f', decimals);
}

} // namespace base
