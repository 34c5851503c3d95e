#pragma once

namespace statistics
{

/// The share of a standard normal distribution that lies at or below z: 0.5 at 0, 0.975 at 1.96.
double normalShareBelow(double z);

} // namespace statistics
