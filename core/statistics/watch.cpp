#include "core/statistics/watch.h"

#include "core/statistics/trend.h"

#include <algorithm>

namespace statistics
{

namespace
{

/// Down from the highest pair or up from the lowest: the further way; where both are beyond the bound, the
/// way from the later pair, since that is the turn.
double wayOf(const Turn& turn, double error, double bound)
{
    const double down = (turn.highest.mean - turn.now) / error;
    const double up = (turn.now - turn.lowest.mean) / error;
    const bool isDown = down > bound && up > bound ? turn.highest.second > turn.lowest.second : down > up;
    return isDown ? -down : up;
}

/// Whether `wayWithout`, asked for each of the last three visits, always says the same.
template <typename WayWithout>
bool standsWithoutAnyOne(size_t visits, int way, WayWithout wayWithout)
{
    constexpr size_t last = 3;
    for (size_t without = visits - std::min(last, visits); without < visits; ++without) {
        if (wayWithout(without) != way)
            return false;
    }
    return true;
}

Look orderLook(const GrowingOrder& order, int visit, double due)
{
    const double clear = due / order.p();
    return {visit, order.risesLessFalls() < 0 ? -clear : clear, 1};
}

} // namespace

Watched watched(std::span<const double> times, std::span<const double> values, double published,
                const Plan& plan)
{
    Watched found;
    found.error = published;
    GrowingSlope slope;
    GrowingTurn growing;
    GrowingScatter scatter;
    const auto bounds = boundsAt(times, plan);
    for (size_t place = 0; place < bounds.size(); ++place) {
        const int visit = int(place) + 1;
        slope.add(times[place], values[place]);
        growing.add(values[place]);
        scatter.add(values[place]);
        if (visit >= fewestForScatter) {
            found.own = scatter.scatter();
            found.error = shrunkError(published, *found.own);
        }
        const auto z = slope.inErrors(found.error);
        if (z && bounds[place].trend)
            found.trend.push_back({visit, *z, *bounds[place].trend});
        const auto turn = growing.turn();
        if (turn && bounds[place].turn)
            found.turn.push_back(
                {visit, wayOf(*turn, found.error, *bounds[place].turn), *bounds[place].turn});
    }
    return found;
}

std::vector<Look> watchedOrder(std::span<const double> values, const Plan& plan)
{
    std::vector<Look> looks;
    GrowingOrder order;
    for (int visit = 1; visit <= int(values.size()); ++visit) {
        order.add(values[size_t(visit) - 1]);
        if (visit >= firstSharing)
            looks.push_back(orderLook(order, visit, sharedDue(visit, plan)));
    }
    return looks;
}

size_t firstAgreeing(std::span<const Look> looks, size_t last)
{
    size_t first = last;
    while (first > 0 && looks[first - 1].way() == looks[last].way())
        --first;
    return first;
}

bool trendStands(const Watched& watched, std::span<const double> times, std::span<const double> values)
{
    const Look& last = watched.trend.back();
    return standsWithoutAnyOne(values.size(), last.way(), [&](size_t without) {
        GrowingSlope slope;
        for (size_t place = 0; place < values.size(); ++place) {
            if (place != without)
                slope.add(times[place], values[place]);
        }
        const auto z = slope.inErrors(watched.error);
        return z ? Look{last.visit, *z, last.bound}.way() : 0;
    });
}

bool turnStands(const Watched& watched, std::span<const double> values)
{
    const Look& last = watched.turn.back();
    return standsWithoutAnyOne(values.size(), last.way(), [&](size_t without) {
        GrowingTurn growing;
        for (size_t place = 0; place < values.size(); ++place) {
            if (place != without)
                growing.add(values[place]);
        }
        const auto turn = growing.turn();
        return turn ? Look{last.visit, wayOf(*turn, watched.error, last.bound), last.bound}.way() : 0;
    });
}

bool orderStands(const std::vector<Look>& looks, std::span<const double> values, const Plan& plan)
{
    const Look& last = looks.back();
    return standsWithoutAnyOne(values.size(), last.way(), [&](size_t without) {
        GrowingOrder others;
        for (size_t place = 0; place < values.size(); ++place) {
            if (place != without)
                others.add(values[place]);
        }
        return orderLook(others, last.visit, sharedDue(last.visit, plan)).way();
    });
}

} // namespace statistics
