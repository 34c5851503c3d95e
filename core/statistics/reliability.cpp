#include "core/statistics/reliability.h"

#include "core/statistics/mean.h"

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace statistics
{

namespace
{

using DoublePolicy = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

bool isFinite(double number)
{
    return std::isfinite(number);
}

bool isCoefficient(double reliability)
{
    return reliability >= 0 && reliability <= 1;
}

bool isFullTable(const Repeats& repeats)
{
    const size_t trials = repeats.empty() ? 0 : repeats.front().size();
    return repeats.size() >= 2 && trials >= 2 && std::ranges::all_of(repeats, [trials](const auto& row) {
               return row.size() == trials && std::ranges::all_of(row, isFinite);
           });
}

} // namespace

std::optional<MeanSquares> meanSquares(const Repeats& repeats)
{
    if (!isFullTable(repeats))
        return std::nullopt;
    const size_t subjects = repeats.size();
    const size_t trials = repeats.front().size();
    std::vector<double> trialMeans(trials, 0.0);
    double grandMean = 0;
    for (const auto& row : repeats) {
        grandMean += mean(row) / double(subjects);
        for (size_t trial = 0; trial < trials; ++trial)
            trialMeans[trial] += row[trial] / double(subjects);
    }

    double between = 0;
    double within = 0;
    double error = 0;
    double betweenTrials = 0;
    for (const double trialMean : trialMeans)
        betweenTrials += std::pow(trialMean - grandMean, 2) * double(subjects);
    for (const auto& row : repeats) {
        const double rowMean = mean(row);
        between += std::pow(rowMean - grandMean, 2) * double(trials);
        for (size_t trial = 0; trial < trials; ++trial) {
            within += std::pow(row[trial] - rowMean, 2);
            error += std::pow(row[trial] - rowMean - trialMeans[trial] + grandMean, 2);
        }
    }
    const double n = double(subjects);
    const double k = double(trials);
    return MeanSquares{int(subjects),          int(trials),
                       between / (n - 1),      betweenTrials / (k - 1),
                       within / (n * (k - 1)), error / ((n - 1) * (k - 1))};
}

std::optional<IntraclassCorrelations> intraclassCorrelations(const MeanSquares& squares)
{
    const double n = squares.subjects;
    const double k = squares.trials;
    const double b = squares.betweenSubjects;
    const double j = squares.betweenTrials;
    const double w = squares.withinSubjects;
    const double e = squares.error;
    if (n < 2 || k < 2 || !(b > 0))
        return std::nullopt;
    const IntraclassCorrelations all{
        (b - w) / (b + (k - 1) * w), (b - e) / (b + (k - 1) * e + k * (j - e) / n),
        (b - e) / (b + (k - 1) * e), (b - w) / b,
        (b - e) / (b + (j - e) / n), (b - e) / b};
    const auto numbers = {all.icc11, all.icc21, all.icc31, all.icc1k, all.icc2k, all.icc3k};
    return std::ranges::all_of(numbers, isFinite) ? std::optional(all) : std::nullopt;
}

std::optional<double> standardErrorOfMeasurement(double standardDeviation, double reliability)
{
    if (!isFinite(standardDeviation) || standardDeviation < 0 || !isCoefficient(reliability))
        return std::nullopt;
    return standardDeviation * std::sqrt(1 - reliability);
}

std::optional<double> minimalDetectableChange(double standardError, double confidence)
{
    const auto z = normalQuantile(confidence);
    if (!z || !isFinite(standardError) || standardError < 0)
        return std::nullopt;
    return *z * std::sqrt(2.0) * standardError;
}

std::optional<double> normalQuantile(double confidence)
{
    if (!(confidence > 0 && confidence < 1))
        return std::nullopt;
    const boost::math::normal_distribution<double, DoublePolicy> standard;
    return boost::math::quantile(boost::math::complement(standard, (1 - confidence) / 2));
}

std::optional<double> reliableChangeIndex(double before, double after, double standardError)
{
    return practiceAdjustedChangeIndex(before, after, 0, standardError, standardError);
}

std::optional<double> practiceAdjustedChangeIndex(double before, double after, double practice,
                                                  double standardError1, double standardError2)
{
    const bool arePositive = standardError1 > 0 && standardError2 > 0;
    const double index = (after - before - practice) / std::hypot(standardError1, standardError2);
    return arePositive && isFinite(standardError1) && isFinite(standardError2) && isFinite(index)
               ? std::optional(index)
               : std::nullopt;
}

std::optional<double> estimatedTrueScore(double observed, double mean, double reliability)
{
    if (!isFinite(observed) || !isFinite(mean) || !isCoefficient(reliability))
        return std::nullopt;
    return reliability * observed + (1 - reliability) * mean;
}

std::optional<Agreement> limitsOfAgreement(std::span<const double> first, std::span<const double> second,
                                           double factor)
{
    if (first.size() != second.size() || first.size() < 2 || !isFinite(factor))
        return std::nullopt;
    std::vector<double> differences;
    for (size_t pair = 0; pair < first.size(); ++pair)
        differences.push_back(first[pair] - second[pair]);
    if (!std::ranges::all_of(differences, isFinite))
        return std::nullopt;
    const double bias = mean(differences);
    double squares = 0;
    for (const double difference : differences)
        squares += std::pow(difference - bias, 2);
    const double deviation = std::sqrt(squares / double(differences.size() - 1));
    return Agreement{int(differences.size()), bias, deviation, bias - factor * deviation,
                     bias + factor * deviation};
}

} // namespace statistics
