#include "core/statistics/trend.h"

#include "core/statistics/distributions.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <mutex>
#include <numeric>

namespace statistics
{

namespace
{

constexpr int exactBelow = 10;

bool isUsable(std::span<const double> times, std::span<const double> values)
{
    const auto isFinite = [](double number) { return std::isfinite(number); };
    return times.size() == values.size() && times.size() >= 2 && std::ranges::all_of(times, isFinite) &&
           std::ranges::all_of(values, isFinite);
}

int sign(double number)
{
    return int(number > 0) - int(number < 0);
}

/// n(n − 1)(2n + 5), of the whole series and of each group of ties.
double spread(double n)
{
    return n * (n - 1) * (2 * n + 5);
}

GrowingOrder orderOf(std::span<const double> values)
{
    GrowingOrder order;
    for (const double value : values)
        order.add(value);
    return order;
}

/// How many orders of n values have each number of falling pairs.
std::vector<double> ordersByFalls(int n)
{
    std::vector<double> orders = {1};
    for (int size = 2; size <= n; ++size) {
        std::vector<double> longer(orders.size() + size_t(size) - 1, 0.0);
        for (size_t falls = 0; falls < orders.size(); ++falls) {
            for (size_t added = 0; added < size_t(size); ++added)
                longer[falls + added] += orders[falls];
        }
        orders = std::move(longer);
    }
    return orders;
}

/// The share of orders whose S lies at least as far from 0.
double exactP(int n, int s)
{
    const std::vector<double> orders = ordersByFalls(n);
    const int pairs = n * (n - 1) / 2;
    double beyond = 0;
    for (int falls = 0; falls <= pairs; ++falls) {
        if (std::abs(pairs - 2 * falls) >= std::abs(s))
            beyond += orders[size_t(falls)];
    }
    return beyond / std::accumulate(orders.begin(), orders.end(), 0.0);
}

/// How many orders of `many` equal values among `others` have each number of inversions with them: Gauss's
/// binomial, as coefficients.
std::vector<double> mixturesByFalls(size_t many, size_t others)
{
    std::vector<double> counts(many * others + 1, 0.0);
    counts[0] = 1;
    for (size_t each = 1; each <= many; ++each) {
        for (size_t falls = counts.size(); falls-- > others + each;) // times 1 − q^(others + each)
            counts[falls] -= counts[falls - others - each];
        for (size_t falls = each; falls < counts.size(); ++falls) // by 1 − q^each
            counts[falls] += counts[falls - each];
    }
    return counts;
}

std::vector<double> product(const std::vector<double>& one, const std::vector<double>& other)
{
    std::vector<double> made(one.size() + other.size() - 1, 0.0);
    for (size_t i = 0; i < one.size(); ++i) {
        for (size_t j = 0; j < other.size(); ++j)
            made[i + j] += one[i] * other[j];
    }
    return made;
}

/// How clear the orders of so many equal values each are; worked out once for each set of groups.
class Orders
{
public:
    double shareAsClear(const std::vector<int>& sizes, int s)
    {
        const std::scoped_lock lock(m_mutex);
        const auto [known, isNew] = m_byFalls.try_emplace(sizes);
        if (isNew)
            known->second = byFalls(sizes);
        const std::vector<double>& orders = known->second;
        const int pairs = int(orders.size()) - 1; // of unlike values
        double beyond = 0;
        for (int falls = 0; falls <= pairs; ++falls) {
            if (std::abs(pairs - 2 * falls) >= s)
                beyond += orders[size_t(falls)];
        }
        return beyond;
    }

private:
    /// The share of orders with each number of falling pairs.
    static std::vector<double> byFalls(const std::vector<int>& sizes)
    {
        std::vector<double> orders = {1};
        size_t laid = 0;
        for (const int many : sizes) {
            orders = product(orders, mixturesByFalls(size_t(many), laid));
            laid += size_t(many);
        }
        const double all = std::accumulate(orders.begin(), orders.end(), 0.0);
        for (double& count : orders)
            count /= all;
        return orders;
    }

    std::mutex m_mutex;
    std::map<std::vector<int>, std::vector<double>> m_byFalls;
};

/// The value at a rank from 1 that may lie between two. Orders the numbers no further than it must.
double atRank(std::vector<double>& numbers, double rank)
{
    if (rank < 1)
        return -std::numeric_limits<double>::infinity();
    if (rank > double(numbers.size()))
        return std::numeric_limits<double>::infinity();
    const auto below = numbers.begin() + std::ptrdiff_t(std::floor(rank)) - 1;
    std::ranges::nth_element(numbers, below);
    const auto above = std::min_element(below + 1, numbers.end());
    return above == numbers.end() ? *below : std::lerp(*below, *above, rank - std::floor(rank));
}

} // namespace

std::optional<Slope> theilSen(std::span<const double> times, std::span<const double> values)
{
    if (!isUsable(times, values))
        return std::nullopt;
    std::vector<double> slopes;
    for (size_t first = 0; first < times.size(); ++first) {
        for (size_t second = first + 1; second < times.size(); ++second) {
            if (sign(times[second] - times[first]) != 0)
                slopes.push_back((values[second] - values[first]) / (times[second] - times[first]));
        }
    }
    if (slopes.empty())
        return std::nullopt;
    const double count = double(slopes.size());
    const double half = normalValueAt(upperTail) * std::sqrt(orderOf(values).variance());
    return Slope{atRank(slopes, (count + 1) / 2), atRank(slopes, (count - half) / 2),
                 atRank(slopes, (count + half) / 2 + 1)};
}

std::optional<MannKendall> mannKendall(std::span<const double> times, std::span<const double> values)
{
    if (!isUsable(times, values) || !std::ranges::is_sorted(times, std::less_equal<>()))
        return std::nullopt;
    MannKendall test;
    test.n = int(values.size());
    const GrowingOrder order = orderOf(values);
    test.s = order.risesLessFalls();
    test.variance = order.variance();
    const bool hasTies = test.variance < spread(test.n) / 18;
    test.isExact = test.n < exactBelow && !hasTies;
    if (test.s != 0)
        test.z = (std::abs(test.s) - 1) / std::sqrt(test.variance) * sign(test.s);
    const int pairs = test.n * (test.n - 1) / 2;
    test.p = test.isExact ? exactP(test.n, test.s) : 2 * normalShareBelow(-std::abs(test.z));
    test.smallestP = test.n < exactBelow
                         ? exactP(test.n, pairs)
                         : 2 * normalShareBelow(-(pairs - 1) / std::sqrt(spread(test.n) / 18));
    return test;
}

void GrowingOrder::add(double value)
{
    const auto [first, last] = std::equal_range(m_ordered.begin(), m_ordered.end(), value);
    const auto lower = int(first - m_ordered.begin());
    const auto higher = int(m_ordered.end() - last);
    const auto equal = double(last - first);
    m_s += lower - higher;
    m_ties += spread(equal + 1) - spread(equal);
    m_ordered.insert(last, value);
}

double GrowingOrder::variance() const
{
    return (spread(double(m_ordered.size())) - m_ties) / 18;
}

double GrowingOrder::p() const
{
    constexpr size_t exactUpTo = 12;
    if (m_s == 0)
        return 1;
    if (m_ordered.size() > exactUpTo)
        return 2 * normalShareBelow(-(std::abs(m_s) - 1) / std::sqrt(variance()));
    std::vector<int> sizes;
    for (size_t place = 0; place < m_ordered.size(); ++place) {
        if (place > 0 && !(m_ordered[place - 1] < m_ordered[place]))
            ++sizes.back();
        else
            sizes.push_back(1);
    }
    std::ranges::sort(sizes);
    static Orders orders;
    return orders.shareAsClear(sizes, std::abs(m_s));
}

double orderP(std::span<const double> values)
{
    return orderOf(values).p();
}

std::optional<Slope> leastSquares(std::span<const double> times, std::span<const double> values,
                                  double standardError)
{
    if (!isUsable(times, values) || !(standardError > 0) || !std::isfinite(standardError))
        return std::nullopt;
    const double n = double(times.size());
    const double middle = std::accumulate(times.begin(), times.end(), 0.0) / n;
    double squares = 0;
    double products = 0;
    for (size_t place = 0; place < times.size(); ++place) {
        squares += (times[place] - middle) * (times[place] - middle);
        products += (times[place] - middle) * values[place];
    }
    if (!(squares > 0))
        return std::nullopt;
    const double slope = products / squares;
    const double half = normalValueAt(upperTail) * standardError / std::sqrt(squares);
    return Slope{slope, slope - half, slope + half};
}

void GrowingSlope::add(double time, double value)
{
    m_count += 1;
    const double step = time - m_meanTime;
    m_meanTime += step / m_count;
    m_meanValue += (value - m_meanValue) / m_count;
    m_squares += step * (time - m_meanTime);
    m_products += step * (value - m_meanValue);
}

std::optional<double> GrowingSlope::inErrors(double standardError) const
{
    if (!(m_squares > 0) || !(standardError > 0))
        return std::nullopt;
    return m_products / std::sqrt(m_squares) / standardError;
}

} // namespace statistics
