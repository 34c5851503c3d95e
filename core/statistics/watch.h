#pragma once

#include "core/statistics/plan.h"
#include "core/statistics/scatter.h"
#include "core/statistics/turn.h"

namespace statistics
{

/// What a rule said at one visit as it came.
struct Look {
    int visit = 0;    ///< from 1
    double z = 0;     ///< in errors; above 0 where the values rise
    double bound = 0; ///< what |z| must exceed

    /// 1 risen and −1 fallen beyond the bound; 0 within it.
    int way() const { return int(z > bound) - int(z < -bound); }
    bool operator==(const Look&) const = default;
};

/// A run of values, looked at anew at every visit.
struct Watched {
    std::vector<Look> trend;
    std::vector<Look> turn;
    std::optional<Scatter> own; ///< the values' own scatter, from the fifth on
    double error = 0; ///< of one value at the last visit: published, or drawn toward the own scatter
};

/// `published` is the standard error of one value. Times must rise; empty lists where they do not.
Watched watched(std::span<const double> times, std::span<const double> values, double published,
                const Plan& plan);

/// The order of the values, looked at anew at every visit from the fifth on: z is what its p may spend at
/// that visit, over the p.
std::vector<Look> watchedOrder(std::span<const double> values, const Plan& plan);

/// The place of the first of the looks up to `last` that say the same as it without a break.
size_t firstAgreeing(std::span<const Look> looks, size_t last);

/// Whether what the last look of the trend, of the turn, of the order says would stand without any one of the
/// last three visits, so that no single one raised it.
bool trendStands(const Watched& watched, std::span<const double> times, std::span<const double> values);
bool turnStands(const Watched& watched, std::span<const double> values);
bool orderStands(const std::vector<Look>& looks, std::span<const double> values, const Plan& plan);

} // namespace statistics
