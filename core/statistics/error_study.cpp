#include "core/statistics/error_study.h"

#include "core/statistics/distributions.h"
#include "core/statistics/ranks.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace statistics
{

namespace
{

/// An interval that does not hold its estimate is none: the approximations give one for coefficients far
/// below 0.
Estimate enclosed(double value, double low, double high)
{
    constexpr double none = std::numeric_limits<double>::quiet_NaN();
    const bool isInterval = low <= value && value <= high && std::isfinite(low) && std::isfinite(high);
    return isInterval ? Estimate{value, low, high} : Estimate{value, none, none};
}

/// The interval of a coefficient (F − 1) / (F + k − 1) from that of its variance ratio F.
Estimate consistency(double value, double ratio, double k, double degrees1, double degrees2)
{
    const double low = ratio / fisherQuantile(upperTail, degrees1, degrees2);
    const double high = ratio * fisherQuantile(upperTail, degrees2, degrees1);
    return enclosed(value, (low - 1) / (low + k - 1), (high - 1) / (high + k - 1));
}

Estimate agreement(double value, const MeanSquares& squares)
{
    const double n = squares.subjects;
    const double k = squares.trials;
    const double b = squares.betweenSubjects;
    const double j = squares.betweenTrials;
    const double e = squares.error;
    const double weightJ = k * value / (n * (1 - value)) * j;
    const double weightE = (1 + k * value * (n - 1) / (n * (1 - value))) * e;
    const double degrees = std::pow(weightJ + weightE, 2) /
                           (weightJ * weightJ / (k - 1) + weightE * weightE / ((n - 1) * (k - 1)));
    if (!(degrees > 0) || !std::isfinite(degrees))
        return enclosed(value, NAN, NAN);
    const double low = fisherQuantile(upperTail, n - 1, degrees);
    const double high = fisherQuantile(upperTail, degrees, n - 1);
    const double noise = k * j + (k * n - k - n) * e;
    return enclosed(value, n * (b - low * e) / (low * noise + n * b),
                    n * (high * b - e) / (noise + n * high * b));
}

Estimate scaled(const Estimate& estimate, double factor)
{
    return {estimate.value * factor, estimate.low * factor, estimate.high * factor};
}

Estimate errorOf(const MeanSquares& squares)
{
    const double degrees = double(squares.subjects - 1) * double(squares.trials - 1);
    const double sum = squares.error * degrees;
    return {std::sqrt(squares.error), std::sqrt(sum / chiSquareQuantile(upperTail, degrees)),
            std::sqrt(sum / chiSquareQuantile(1 - upperTail, degrees))};
}

std::vector<double> column(const Repeats& repeats, size_t trial)
{
    std::vector<double> values;
    values.reserve(repeats.size());
    for (const auto& row : repeats)
        values.push_back(row[trial]);
    return values;
}

void addLimits(ErrorStudy& study, const Repeats& repeats)
{
    constexpr double factor = 1.96;
    const auto limits = limitsOfAgreement(column(repeats, 0), column(repeats, 1), factor);
    if (!limits)
        return;
    const double n = limits->pairs;
    const double t = studentQuantile(upperTail, n - 1) * limits->standardDeviation;
    const double ofBias = t / std::sqrt(n);
    const double ofLimit = t * std::sqrt(1 / n + factor * factor / (2 * (n - 1)));
    study.bias = Estimate{limits->bias, limits->bias - ofBias, limits->bias + ofBias};
    study.lowerLimit = Estimate{limits->lower, limits->lower - ofLimit, limits->lower + ofLimit};
    study.upperLimit = Estimate{limits->upper, limits->upper - ofLimit, limits->upper + ofLimit};
}

double growthOf(const Repeats& repeats)
{
    std::vector<double> levels;
    std::vector<double> spreads;
    for (const auto& row : repeats) {
        const double level = std::accumulate(row.begin(), row.end(), 0.0) / double(row.size());
        double squares = 0;
        for (const double value : row)
            squares += std::pow(value - level, 2);
        levels.push_back(level);
        spreads.push_back(squares);
    }
    return rankCorrelation(levels, spreads);
}

} // namespace

bool growsWithLevel(const ErrorStudy& study)
{
    const double degrees = study.subjects - 2;
    if (degrees < 1 || study.growth <= 0)
        return false;
    const double t = study.growth * std::sqrt(degrees / std::max(1 - study.growth * study.growth, 1e-12));
    return t > studentQuantile(upperTail, degrees);
}

std::optional<Repeats> logarithms(const Repeats& repeats)
{
    Repeats logs = repeats;
    for (auto& row : logs) {
        for (double& value : row) {
            if (!(value > 0))
                return std::nullopt;
            value = std::log(value);
        }
    }
    return logs;
}

std::optional<ErrorStudy> errorStudy(const Repeats& repeats)
{
    const auto squares = meanSquares(repeats);
    const auto coefficients = squares ? intraclassCorrelations(*squares) : std::nullopt;
    if (!coefficients || !(squares->error > 0) || !(squares->withinSubjects > 0))
        return std::nullopt;
    const double n = squares->subjects;
    const double k = squares->trials;
    const double ofError = squares->betweenSubjects / squares->error;
    const double ofWithin = squares->betweenSubjects / squares->withinSubjects;

    ErrorStudy study;
    study.subjects = squares->subjects;
    study.trials = squares->trials;
    study.icc11 = consistency(coefficients->icc11, ofWithin, k, n - 1, n * (k - 1));
    study.icc21 = agreement(coefficients->icc21, *squares);
    study.icc31 = consistency(coefficients->icc31, ofError, k, n - 1, (n - 1) * (k - 1));
    study.sem = errorOf(*squares);
    study.mdc90 = scaled(study.sem, normalValueAt(0.95) * std::sqrt(2.0));
    study.mdc95 = scaled(study.sem, normalValueAt(upperTail) * std::sqrt(2.0));
    for (size_t trial = 0; trial < repeats.front().size(); ++trial) {
        const auto values = column(repeats, trial);
        study.practice.push_back(std::accumulate(values.begin(), values.end(), 0.0) / n);
    }
    if (squares->trials == 2)
        addLimits(study, repeats);
    study.growth = growthOf(repeats);
    return study;
}

} // namespace statistics
