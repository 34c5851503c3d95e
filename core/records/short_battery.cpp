#include "core/records/short_battery.h"

#include <cmath>

namespace records
{

namespace
{

constexpr double fullHold = 10;     // s
constexpr double shortTandem = 3;   // s
constexpr double course = 4;        // m
constexpr double longestRises = 60; // s

double inHundredths(double seconds)
{
    return std::round(seconds * 100) / 100;
}

} // namespace

int balanceScore(double feetTogether, double semiTandem, double tandem)
{
    if (feetTogether < fullHold)
        return 0;
    if (semiTandem < fullHold)
        return 1;
    return tandem < shortTandem ? 2 : tandem < fullHold ? 3 : 4;
}

int walkScore(std::optional<double> metresPerSecond)
{
    if (!metresPerSecond || !(*metresPerSecond > 0))
        return 0;
    const double seconds = inHundredths(course / *metresPerSecond);
    return seconds < 4.82 ? 4 : seconds <= 6.20 ? 3 : seconds <= 8.70 ? 2 : 1;
}

int risesScore(std::optional<double> seconds)
{
    if (!seconds || *seconds > longestRises)
        return 0;
    const double time = inHundredths(*seconds);
    return time <= 11.19 ? 4 : time <= 13.69 ? 3 : time <= 16.69 ? 2 : 1;
}

} // namespace records
