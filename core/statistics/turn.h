#pragma once

#include <optional>

namespace statistics
{

/// Two neighbouring values of a series.
struct Pair {
    int second = 0; ///< place of the later one, from 0
    double mean = 0;
};

/// The last two values of a series beside its highest and lowest earlier pair of neighbours that shares no
/// value with them; of equal pairs the earliest.
struct Turn {
    double now = 0; ///< mean of the last two
    Pair highest;
    Pair lowest;

    /// The larger of the ways down from the highest and up from the lowest pair.
    double size() const;
};

/// The turn of a series as it grows.
class GrowingTurn
{
public:
    void add(double value);
    std::optional<Turn> turn() const; ///< empty below four values

private:
    int m_count = 0;
    double m_last = 0;
    double m_lastMean = 0;         ///< of the last two
    double m_meanBefore = 0;       ///< of the two before, which share one value with them
    std::optional<Pair> m_highest; ///< of the pairs that share none
    std::optional<Pair> m_lowest;
};

} // namespace statistics
