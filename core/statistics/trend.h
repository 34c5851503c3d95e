#pragma once

#include <optional>
#include <span>
#include <vector>

namespace statistics
{

/// A slope with its 95 % confidence interval, in units of the values per unit of the times.
struct Slope {
    double value = 0;
    double low = 0;
    double high = 0;
};

/// The median of all pairwise slopes. Sen 1968, J Am Stat Assoc 63:1379. The interval from the ranks that
/// ± z · √Var(S) names, interpolated as in Gilbert 1987, p. 217; infinite where a rank lies outside. Pairs at
/// one time are left out. Empty for unequal lengths, fewer than two different times, or what is not finite.
std::optional<Slope> theilSen(std::span<const double> times, std::span<const double> values);

/// Kendall's test that values rise or fall with time. Mann 1945; Kendall 1975.
struct MannKendall {
    int n = 0;
    int s = 0;            ///< rising minus falling pairs
    double variance = 0;  ///< of S, corrected for ties among the values
    double z = 0;         ///< (|S| − 1) / √variance with the sign of S; 0 where S is 0
    double p = 1;         ///< two-sided
    bool isExact = false; ///< counted over all orders: below ten values and without ties
    double smallestP = 1; ///< the smallest two-sided p that this many values can give
};

/// Empty for unequal lengths, fewer than two values, times that do not rise, or what is not finite.
std::optional<MannKendall> mannKendall(std::span<const double> times, std::span<const double> values);

/// The probability that values in a random order rise and fall at least as clearly as these, either way: of
/// all orders, with their ties, up to twelve values; beyond, that of Mann and Kendall. 1 below two values.
double orderP(std::span<const double> values);

/// The same of a series as it grows.
class GrowingOrder
{
public:
    void add(double value);
    int risesLessFalls() const { return m_s; }
    double variance() const; ///< of that difference, corrected for ties
    double p() const;

private:
    std::vector<double> m_ordered; ///< by size
    int m_s = 0;
    double m_ties = 0; ///< what groups of equal values take from 18 · variance
};

/// Ordinary least squares where every value errs by the same known standard error: slope ± 1.96 · error /
/// √Σ(t − mean)². Empty as theilSen, and for an error that is not above 0.
std::optional<Slope> leastSquares(std::span<const double> times, std::span<const double> values,
                                  double standardError);

/// The least squares slope of a series as it grows, for looks at every visit.
class GrowingSlope
{
public:
    void add(double time, double value);
    /// The slope divided by its standard error where every value errs by the same known one. Empty below two
    /// different times, and for an error that is not above 0.
    std::optional<double> inErrors(double standardError) const;

private:
    double m_count = 0;
    double m_meanTime = 0;
    double m_meanValue = 0;
    double m_squares = 0;  ///< of the times about their mean
    double m_products = 0; ///< of times and values about theirs
};

} // namespace statistics
