#pragma once

#include "core/catalogue/evidence.h"

#include <QString>

#include <optional>

namespace catalogue
{

enum class NormSex { Any, Female, Male };

/// Whom a reference value holds for. Ages in completed years, both ends included; none: every adult.
struct Whom {
    QString population;      ///< population id; empty: people without a disease that matters
    QString populationWords; ///< as the source describes the people
    NormSex sex = NormSex::Any;
    std::optional<int> ageLow;
    std::optional<int> ageHigh;
    QString side; ///< "right", "left", "dominant", "non-dominant", or empty for either
};

/// Where a reference value comes from.
struct Origin {
    std::optional<int> n;
    QString source; ///< id of a Source
    Checked checked = Checked::Read;
    QString note;
};

/// What people of one group reached, in the measure's unit.
struct Norm {
    QString id;
    QString measure;
    Whom whom;
    std::optional<double> mean;
    std::optional<double> sd;      ///< between people; empty where it is not known or not trusted
    std::optional<double> meanLow; ///< confidence interval of the mean, which is no reference interval
    std::optional<double> meanHigh;
    std::optional<double> rangeLow; ///< reference range, both ends included
    std::optional<double> rangeHigh;
    QString rangeWords; ///< "25th to 75th percentile", "below average under"
    QString trialRule;  ///< "mean of three", where the source says so
    Origin origin;
};

/// A predicted value: intercept + perYear · age + perCm · height + perKg · weight.
struct Equation {
    QString id;
    QString measure;
    Whom whom;
    double intercept = 0;
    double perYear = 0;
    double perCm = 0;
    double perKg = 0;
    std::optional<double> lowerLimitBelow; ///< the lower limit lies this far below the prediction
    Checked lowerLimitChecked = Checked::Read;
    Origin origin;
};

enum class BandKind {
    Level, ///< a named part of the scale: "household walking"
    Risk   ///< a cut-off beyond which more people fell, or the like
};

/// A part of a scale that has a name.
struct Band {
    QString id;
    QString measure;
    QString series; ///< bands of one series do not overlap
    BandKind kind = BandKind::Level;
    Whom whom;
    std::optional<double> low;
    bool lowIncluded = true;
    std::optional<double> high;
    bool highIncluded = false;
    QString words;                     ///< what the band is called or what was seen in it, without a promise
    std::optional<double> sensitivity; ///< 0 to 1, of being in the band for what `words` says
    std::optional<double> specificity;
    Origin origin;
};

} // namespace catalogue
