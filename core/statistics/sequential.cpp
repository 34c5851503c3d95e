#include "core/statistics/sequential.h"

#include "core/statistics/distributions.h"

namespace statistics
{

namespace
{

/// What may be spent up to this visit.
double spentBy(int visit, double planned)
{
    const double share = visit / planned;
    return sequentialLevel * share * share * share;
}

} // namespace

std::optional<double> sequentialBound(int visit, int plannedVisits)
{
    if (visit < firstLook || plannedVisits < firstLook)
        return std::nullopt;
    const int blocks = (visit - 1) / plannedVisits + 1;
    const double planned = double(plannedVisits) * blocks;
    const double before = visit == firstLook ? 0 : spentBy(visit - 1, planned);
    return -normalValueAt((spentBy(visit, planned) - before) / 2);
}

} // namespace statistics
