#include "core/statistics/flag_rates.h"

#include "core/statistics/distributions.h"
#include "core/statistics/sequential.h"

#include <algorithm>
#include <array>

namespace statistics
{

namespace
{

constexpr int fewestVisits = 2;

/// A row per rule, a column per number of visits. From `rule_rates --rows` in tests/bench, a million people.
using Row = std::array<double, mostSimulatedVisits - fewestVisits + 1>;
constexpr std::array<Row, 5> rates = {{
    {0.0496, 0.0903, 0.1252, 0.1556, 0.1827, 0.2071, 0.2295, 0.2500, 0.2691, 0.2866, 0.3034, 0.3189, 0.3336,
     0.3475, 0.3608, 0.3734, 0.3856, 0.3971, 0.4081},
    {0.0496, 0.0904, 0.1295, 0.1669, 0.2027, 0.2370, 0.2698, 0.3012, 0.3313, 0.3600, 0.3878, 0.4140, 0.4392,
     0.4634, 0.4866, 0.5088, 0.5299, 0.5503, 0.5696},
    {0.0248, 0.0658, 0.1163, 0.1728, 0.2315, 0.2912, 0.3501, 0.4066, 0.4608, 0.5118, 0.5592, 0.6032, 0.6436,
     0.6813, 0.7153, 0.7463, 0.7743, 0.7994, 0.8222},
    {0.0000, 0.0092, 0.0151, 0.0212, 0.0266, 0.0316, 0.0362, 0.0406, 0.0448, 0.0488, 0.0525, 0.0562, 0.0597,
     0.0629, 0.0659, 0.0689, 0.0718, 0.0745, 0.0773},
    {0.0000, 0.0026, 0.0059, 0.0108, 0.0176, 0.0261, 0.0365, 0.0372, 0.0387, 0.0407, 0.0430, 0.0457, 0.0487,
     0.0520, 0.0554, 0.0559, 0.0569, 0.0581, 0.0595},
}};

double mostSpent(int visits, int plannedVisits)
{
    double spent = 0;
    for (int visit = firstLook; visit <= visits; ++visit)
        spent += 2 * normalShareBelow(-*sequentialBound(visit, plannedVisits));
    return std::min(spent, 1.0);
}

} // namespace

std::optional<double> falseFlagRate(FlagRule rule, int visits, int plannedVisits)
{
    const bool isOtherPlan = rule == FlagRule::Sequential && plannedVisits != simulatedPlan;
    if (visits < fewestVisits || (isOtherPlan && plannedVisits < firstLook))
        return std::nullopt;
    if (isOtherPlan)
        return mostSpent(visits, plannedVisits);
    return rates[size_t(rule)][size_t(std::min(visits, mostSimulatedVisits) - fewestVisits)];
}

} // namespace statistics
