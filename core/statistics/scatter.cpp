#include "core/statistics/scatter.h"

#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <cmath>
#include <cstdint>
#include <map>
#include <mutex>
#include <numbers>
#include <utility>
#include <vector>

namespace statistics
{

namespace
{

/// What the mean of the squared successive differences, halved, is made of: so much of each of n − 1
/// independent squared normals.
std::vector<double> partsOfScatter(int values)
{
    std::vector<double> parts;
    for (int part = 1; part < values; ++part)
        parts.push_back((1 - std::cos(std::numbers::pi * part / values)) / (values - 1));
    return parts;
}

/// The probability that |normal| / √scatter exceeds the limit: the normal tail as an integral over an angle
/// (Craig 1991, from memory), whose mean over the scatter is a product.
double shareBeyond(double limit, const std::vector<double>& parts)
{
    const double quarter = std::numbers::pi / 2;
    const auto inAngle = [&](double angle) {
        const double sine = std::sin(angle);
        double product = 1;
        for (const double part : parts)
            product *= 1 + limit * limit * part / (sine * sine);
        return 1 / std::sqrt(product);
    };
    return boost::math::quadrature::gauss<double, 30>::integrate(inAngle, 0.0, quarter) / quarter;
}

double limitFor(int earlier, double probability)
{
    const std::vector<double> parts = partsOfScatter(earlier);
    const auto excess = [&](double limit) { return shareBeyond(limit, parts) - probability; };
    double high = 2;
    while (excess(high) > 0)
        high *= 2;
    constexpr int bits = 40;
    std::uintmax_t mostSteps = 100;
    return boost::math::tools::toms748_solve(excess, 0.0, high,
                                             boost::math::tools::eps_tolerance<double>(bits), mostSteps)
        .second;
}

/// What was worked out once.
class Limits
{
public:
    double at(int earlier, double probability)
    {
        const std::scoped_lock lock(m_mutex);
        const auto [known, isNew] = m_limits.try_emplace({earlier, probability}, 0);
        if (isNew)
            known->second = limitFor(earlier, probability);
        return known->second;
    }

private:
    std::mutex m_mutex;
    std::map<std::pair<int, double>, double> m_limits;
};

} // namespace

double degreesOfScatter(int values)
{
    return values < 2 ? 0 : 2.0 * (values - 1) * (values - 1) / (3.0 * values - 4);
}

void GrowingScatter::add(double value)
{
    if (m_count > 0)
        m_squares += (value - m_last) * (value - m_last);
    m_last = value;
    ++m_count;
}

std::optional<Scatter> GrowingScatter::scatter() const
{
    if (m_count < 2)
        return std::nullopt;
    return Scatter{std::sqrt(m_squares / (2.0 * (m_count - 1))), degreesOfScatter(m_count)};
}

double shrunkError(double published, const Scatter& own)
{
    const double squares =
        publishedDegrees * published * published + own.degrees * own.deviation * own.deviation;
    return std::sqrt(squares / (publishedDegrees + own.degrees));
}

std::optional<double> scatterLimit(int earlier, double probability)
{
    if (earlier < 2 || !(probability > 0 && probability < 1))
        return std::nullopt;
    static Limits limits;
    return limits.at(earlier, probability);
}

double scatterShareBeyond(int earlier, double limit)
{
    return limit > 0 ? shareBeyond(limit, partsOfScatter(earlier)) : 1;
}

} // namespace statistics
