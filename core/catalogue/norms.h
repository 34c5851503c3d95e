#pragma once

#include "core/catalogue/evidence.h"
#include "core/catalogue/measure.h"

#include <QString>

#include <optional>

namespace catalogue
{

enum class NormSex { Any, Female, Male };

/// Whom a reference value holds for, and how they were measured. Ages in completed years, both ends included;
/// none: every adult.
struct Whom {
    QString population;      ///< population id; empty: people without a disease that matters
    QString populationWords; ///< as the source describes the people
    NormSex sex = NormSex::Any;
    std::optional<int> ageLow;
    std::optional<int> ageHigh;
    QString side; ///< "right", "left", "dominant", "non-dominant", or empty for either
    std::optional<Requirement> condition; ///< a result recorded otherwise does not compare
    QString protocol; ///< what the source did, where it matters and is known: "timed over 7.62 m"

    bool operator==(const Whom&) const = default;
};

/// Where a reference value comes from.
struct Origin {
    std::optional<int> n; ///< people; empty where not known
    QString source;       ///< id of a Source
    Checked checked = Checked::Read;
    QString note;
    bool isOfStudy = false; ///< `n` counts the whole study, because that of the group itself is not known

    bool operator==(const Origin&) const = default;
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
    QString rangeWords;            ///< what the range is: "25th to 75th percentile"
    std::optional<TrialRule> rule; ///< how the source made one value of its trials; empty where not known
    Origin origin;

    bool operator==(const Norm&) const = default;
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

    /// Age in completed years, height in cm, weight in kg.
    double predicted(double age, double heightCm, double weightKg) const
    {
        return intercept + perYear * age + perCm * heightCm + perKg * weightKg;
    }

    bool operator==(const Equation&) const = default;
};

enum class BandKind {
    Level, ///< a named part of the scale: "household walking"
    Risk   ///< beyond a cut-off more people fell, or the like; open at one end
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
    QString words;                     ///< Level: its name, "household walking". Risk: who was told apart by
                                       ///< it, "people who fall"
    std::optional<double> sensitivity; ///< 0 to 1: the share of those in `words` who were in the band
    std::optional<double> specificity; ///< 0 to 1: the share of the others who were not
    Origin origin;

    bool contains(double number) const;

    bool operator==(const Band&) const = default;
};

} // namespace catalogue
