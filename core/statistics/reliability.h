#pragma once

#include <optional>
#include <span>
#include <vector>

namespace statistics
{

/// Repeated measurements: one row a subject, the same number of trials in each.
using Repeats = std::vector<std::vector<double>>;

/// Mean squares of a two-way layout, subjects by trials, one value a cell.
struct MeanSquares {
    int subjects = 0;
    int trials = 0;
    double betweenSubjects = 0;
    double betweenTrials = 0;
    double withinSubjects = 0;
    double error = 0;
};

/// Empty for fewer than two subjects or trials, ragged rows, or a value that is not finite.
std::optional<MeanSquares> meanSquares(const Repeats& repeats);

/// Intraclass correlations of Shrout & Fleiss 1979, Psychol Bull 86:420, single and mean of k.
struct IntraclassCorrelations {
    double icc11 = 0, icc21 = 0, icc31 = 0;
    double icc1k = 0, icc2k = 0, icc3k = 0;
};
std::optional<IntraclassCorrelations> intraclassCorrelations(const MeanSquares& squares);

/// SD · √(1 − ICC). Empty unless the deviation is at least 0 and the coefficient lies between 0 and 1.
std::optional<double> standardErrorOfMeasurement(double standardDeviation, double reliability);

/// z · √2 · SEM: the smallest change beyond measurement error at a confidence between 0 and 1 (0.95: 1.96 ·
/// √2 · SEM). Weir 2005, J Strength Cond Res 19:231.
std::optional<double> minimalDetectableChange(double standardError, double confidence);

/// The two-sided standard normal quantile: 1.96 for 0.95. Empty unless 0 < confidence < 1.
std::optional<double> normalQuantile(double confidence);

/// (after − before) / √(2 · SEM²): reliable beyond ±1.96. Jacobson & Truax 1991. Empty for a SEM that is not
/// positive.
std::optional<double> reliableChangeIndex(double before, double after, double standardError);

/// ((after − before) − practice) / √(SEM₁² + SEM₂²): adjusted for the mean practice effect. Iverson 2001.
std::optional<double> practiceAdjustedChangeIndex(double before, double after, double practice,
                                                  double standardError1, double standardError2);

/// r·X + (1 − r)·mean: the true score expected behind an observed one. Kelley.
std::optional<double> estimatedTrueScore(double observed, double mean, double reliability);

/// Mean and limits of agreement of paired differences. Bland & Altman 1986, Lancet i:307.
struct Agreement {
    int pairs = 0;
    double bias = 0;
    double standardDeviation = 0; ///< of the differences, n − 1
    double lower = 0;
    double upper = 0;
};
/// `factor` 1.96, or 2 as in the paper. Empty for fewer than two pairs or unequal lengths.
std::optional<Agreement> limitsOfAgreement(std::span<const double> first, std::span<const double> second,
                                           double factor);

} // namespace statistics
