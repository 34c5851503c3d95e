#pragma once

#include <span>
#include <vector>

namespace statistics
{

/// One of several looks at a growing series, as planned.
struct Stage {
    double information = 0; ///< rises from look to look; the statistic's increments are independent in it
    double spent = 0;       ///< share of stable people flagged at this look or an earlier one
};

/// What |z| must exceed at each look, so that of stable people, whose z is standard normal at every look,
/// just the share `spent` has been flagged by then. Exact: what is left of them is carried from look to look
/// by numerical integration, to 1e-5 (Armitage, McPherson & Rowe 1969, J R Stat Soc A 132:235; spending: Lan
/// & DeMets 1983, Biometrika 70:659; both from memory). A bound depends on its own and earlier looks only.
/// Empty unless information rises from above 0 and what is spent from above 0 to below 1.
std::vector<double> sequentialBounds(std::span<const Stage> stages);

} // namespace statistics
