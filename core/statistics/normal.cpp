#include "core/statistics/normal.h"

#include <cmath>
#include <numbers>

namespace statistics
{

double normalShareBelow(double z)
{
    return std::erfc(-z / std::numbers::sqrt2) / 2;
}

} // namespace statistics
