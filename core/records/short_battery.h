#pragma once

#include <optional>

namespace records
{

/// The scores of the short physical performance battery, 0 to 4 each. Guralnik 1994, J Gerontol 49:M85, whose
/// bounds for the 4 m course are 4.82, 6.20 and 8.70 s, for five rises 11.19, 13.69 and 16.69 s; the bound of
/// 6.20 s and "more than 60 s scores 0" are from memory. Times count in hundredths of a second, as the bounds
/// are printed.

/// Of the holds, in seconds: feet together, semi-tandem, tandem. A hold that was not reached is 0; after one
/// of less than 10 s the later ones do not count.
int balanceScore(double feetTogether, double semiTandem, double tandem);

/// Of the walking speed, by the time it takes over 4 m, so that a 3 m course scores as its own table says.
/// Unable: 0.
int walkScore(std::optional<double> metresPerSecond);

/// Of the seconds for five rises from the chair. Unable: 0.
int risesScore(std::optional<double> seconds);

} // namespace records
