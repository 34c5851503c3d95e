#pragma once

#include <optional>

namespace statistics
{

/// How much one person's values differ from visit to visit: the standard deviation of one value, from
/// successive differences, which a slow drift hardly touches (von Neumann 1941, Ann Math Stat 12:367, from
/// memory), and what it is worth as degrees of freedom.
struct Scatter {
    double deviation = 0;
    double degrees = 0;
};

/// 2(n − 1)² / (3n − 4): those of a χ² of the same variance as the mean of n − 1 squared successive
/// differences of normal errors. 0 below two values.
double degreesOfScatter(int values);

/// The scatter of a series as it grows.
class GrowingScatter
{
public:
    void add(double value);
    std::optional<Scatter> scatter() const; ///< empty below two values

private:
    int m_count = 0;
    double m_last = 0;
    double m_squares = 0; ///< of successive differences
};

/// From so many values on their scatter is counted in.
inline constexpr int fewestForScatter = 5;

/// A published error is worth so many degrees of freedom beside a person's own scatter: that of a study of
/// about twenty people.
inline constexpr double publishedDegrees = 20;

/// The published error drawn toward the person's own scatter: √((ν₀ · SEM² + ν · s²) / (ν₀ + ν)).
double shrunkError(double published, const Scatter& own);

/// How far a value may lie from the mean of so many earlier ones, in deviations of the earlier ones' scatter
/// · √(1 + 1/n), if a stable person is to exceed it with this probability, either way. Exact for normal
/// errors. Empty below two earlier values, and unless 0 < probability < 1.
std::optional<double> scatterLimit(int earlier, double probability);

/// The probability of that, for a limit: how often a stable person lies so far away. `earlier` 2 or more,
/// `limit` not below 0.
double scatterShareBeyond(int earlier, double limit);

} // namespace statistics
