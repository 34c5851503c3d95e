#include "core/statistics/sequential.h"

#include "core/statistics/distributions.h"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace statistics
{

namespace
{

double normalDensity(double z)
{
    return std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
}

/// Those not flagged so far, as points of the positive half of z; the other half is its mirror.
struct Unflagged {
    std::vector<double> z;
    std::vector<double> share; ///< density times the width each point stands for
};

/// How z moves from one look to the next: old · carried + a normal step of this deviation.
struct Move {
    double carried = 0;
    double deviation = 1;
};

Move moveBetween(double before, double now)
{
    return {std::sqrt(before / now), std::sqrt(1 - before / now)};
}

double shareBeyond(double bound, const Unflagged& before, const Move& move)
{
    double share = 0;
    for (size_t i = 0; i < before.z.size(); ++i) {
        const double middle = before.z[i] * move.carried;
        share += before.share[i] * (normalShareBelow((middle - bound) / move.deviation) +
                                    normalShareBelow((-middle - bound) / move.deviation));
    }
    return 2 * share;
}

double densityAt(double z, const Unflagged& before, const Move& move)
{
    double density = 0;
    for (size_t i = 0; i < before.z.size(); ++i) {
        const double middle = before.z[i] * move.carried;
        density += before.share[i] * (normalDensity((z - middle) / move.deviation) +
                                      normalDensity((z + middle) / move.deviation));
    }
    return density / move.deviation;
}

/// At most what the look would need alone: who is flagged is no longer there.
double boundFor(double spent, const Unflagged& before, const Move& move)
{
    constexpr int bits = 40;
    std::uintmax_t mostSteps = 60;
    const auto excess = [&](double bound) { return shareBeyond(bound, before, move) - spent; };
    const double highest = -normalValueAt(spent / 2);
    if (!(excess(highest) < 0))
        return highest;
    const auto found = boost::math::tools::toms748_solve(
        excess, 0.0, highest, boost::math::tools::eps_tolerance<double>(bits), mostSteps);
    return found.second;
}

/// By Simpson's rule, in steps that are small beside both moves.
Unflagged within(double bound, const Unflagged& before, const Move& move, double finest)
{
    constexpr double stepsInDeviation = 3;
    constexpr double fewest = 16;
    const auto pairs = int(std::max(fewest, std::ceil(bound * stepsInDeviation / finest / 2)));
    const double step = bound / (2 * pairs);
    Unflagged left;
    for (int i = 0; i <= 2 * pairs; ++i) {
        const bool isEnd = i == 0 || i == 2 * pairs;
        const double weight = isEnd ? 1 : i % 2 == 1 ? 4 : 2;
        left.z.push_back(i * step);
        left.share.push_back(weight * step / 3 * densityAt(i * step, before, move));
    }
    return left;
}

bool isInOrder(std::span<const Stage> stages)
{
    double information = 0;
    double spent = 0;
    for (const Stage& stage : stages) {
        if (!(stage.information > information) || !(stage.spent > spent) || !(stage.spent < 1))
            return false;
        information = stage.information;
        spent = stage.spent;
    }
    return true;
}

} // namespace

std::vector<double> sequentialBounds(std::span<const Stage> stages)
{
    std::vector<double> bounds;
    if (!isInOrder(stages))
        return bounds;
    Unflagged left{{0}, {0.5}}; // everybody starts at 0
    double before = 0;
    double spent = 0;
    for (size_t i = 0; i < stages.size(); ++i) {
        const Move move = moveBetween(before, stages[i].information);
        bounds.push_back(boundFor(stages[i].spent - spent, left, move));
        before = stages[i].information;
        spent = stages[i].spent;
        if (i + 1 == stages.size())
            break;
        const Move next = moveBetween(before, stages[i + 1].information);
        left = within(bounds.back(), left, move, std::min(move.deviation, next.deviation / next.carried));
    }
    return bounds;
}

} // namespace statistics
