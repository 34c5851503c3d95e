#pragma once

#include "core/statistics/reliability.h"

namespace statistics
{

/// An estimate with its 95 % confidence interval; neither end is a number where the interval is not defined.
struct Estimate {
    double value = 0;
    double low = 0;
    double high = 0;

    bool hasInterval() const { return low <= high; }
};

/// The measurement error of a clinic's own repeated tests in people in whom no change was expected.
struct ErrorStudy {
    int subjects = 0;
    int trials = 0;
    Estimate icc11; ///< intervals after McGraw & Wong 1996, Psychol Methods 1:30
    Estimate icc21;
    Estimate icc31;
    Estimate sem; ///< √ of the error mean square (Weir 2005), the measure's unit; interval by chi-square
    Estimate mdc90;
    Estimate mdc95;
    std::vector<double> practice;       ///< the mean of each trial
    std::optional<Estimate> bias;       ///< two trials only: mean of first − second
    std::optional<Estimate> lowerLimit; ///< bias − 1.96 SD, interval after Bland & Altman 1999,
    std::optional<Estimate> upperLimit; ///< Stat Methods Med Res 8:135
    double growth = 0; ///< rank correlation (Spearman) of the subjects' spread with their level; above 0 the
                       ///< error grows with the level
};

/// Below so many subjects a study may not stand in for a published error.
constexpr int fewestSubjects = 20;

/// Whether the error grows with the level: `growth` is above 0 at the two-sided 5 % level by
/// t = r · √((n − 2) / (1 − r²)) with n − 2 degrees of freedom (common practice, no source).
bool growsWithLevel(const ErrorStudy& study);

/// The natural logarithms; empty unless every value is above 0.
std::optional<Repeats> logarithms(const Repeats& repeats);

/// Empty for what meanSquares refuses, and where subjects or repeats do not differ at all.
std::optional<ErrorStudy> errorStudy(const Repeats& repeats);

} // namespace statistics
