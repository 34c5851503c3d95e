#pragma once

#include <QString>

namespace base
{

/// The number at so many decimals, halves away from zero as people round: 4.55 at one decimal is 4.6, though
/// the nearest double lies below it. Never −0.
double rounded(double number, int decimals);

/// The same written with a point: "4.60".
QString fixed(double number, int decimals);

} // namespace base
