#pragma once

#include "core/catalogue/measure.h"
#include "core/catalogue/requirement.h"

namespace catalogue
{

/// A publication a number comes from.
struct Source {
    QString id;
    QString reference; ///< authors, title or journal, year
    QString doi;       ///< empty where none is known; then the reference is full
    QString shortForm; ///< "Steffen & Seney 2008"
};

/// Whether the number was read in its source or recalled.
enum class Checked { Read, Memory };

/// On what scale a threshold's number is a threshold.
enum class Scale {
    Absolute,           ///< in the measure's unit
    PercentOfReference, ///< percent of the reference visit's value
    ProportionalToMean, ///< this share of the mean of the two values
    Log                 ///< difference of natural logarithms
};

/// What the published reliability is one of.
enum class Design {
    TestRetest,
    BetweenRaters,
    InternalConsistency ///< of the items among themselves; nobody was tested twice
};

/// How far apart the repeats lay that a reliability is one of.
enum class Repeats { NotStated, WithinDay, BetweenDays };

/// What an interval says whose longest end is this many days; not known: not stated.
constexpr Repeats repeatsOf(std::optional<double> longestDays)
{
    if (!longestDays)
        return Repeats::NotStated;
    return *longestDays < 1 ? Repeats::WithinDay : Repeats::BetweenDays;
}

/// Where the confidence level of a threshold comes from.
enum class Basis {
    Stated,   ///< in the source
    Inferred, ///< from the ratio of the change to the standard error
    Assumed,  ///< the usual level
    Empirical ///< no level: the spread of stable people, or a review's limit
};

enum class Answers {
    Error,    ///< beyond measurement error? (MDC, smallest real difference)
    Important ///< does the change matter? (MIC, MCID)
};

/// A published threshold of change for one measure in one population.
struct Threshold {
    QString id;
    QString measure;
    QString population;      ///< population id
    QString populationWords; ///< as the source describes the people
    Answers answers = Answers::Error;
    Scale scale = Scale::Absolute;
    double improvement = 0; ///< a positive number on `scale`
    double decline = 0;     ///< a positive number on `scale`; equal to `improvement` unless published apart
    std::optional<double> confidence; ///< 0.95 or 0.90. Empty for an important change or an empirical limit
    std::optional<Basis> basis;       ///< empty for an important change
    QString bandOf;                   ///< measure id whose reference level the band is of; empty: no band
    std::optional<double> bandLow;    ///< included
    std::optional<double> bandHigh;
    bool bandHighIncluded = false;
    std::optional<double> sem; ///< standard error of measurement, the measure's unit
    std::optional<double> icc;
    std::optional<int> n;
    Repeats repeats = Repeats::NotStated;
    QString interval;              ///< between the repeats, in the source's words; for people to read alone
    std::optional<double> daysLow; ///< the same in days; 0 within a session. Empty where not known
    std::optional<double> daysHigh;
    std::optional<TrialRule> rule; ///< how the source made one value of its trials; empty where not said
    std::optional<int> trials;     ///< of how many; empty where not said
    QString protocol;              ///< what the source did, where it matters and is known
    Design design = Design::TestRetest;
    QString hand;                         ///< "dominant", "non-dominant", or empty for either
    std::optional<Requirement> condition; ///< where the people were measured under one
    QString source;                       ///< id of a Source
    Checked checked = Checked::Read;
    QString note;
    bool isOwn = false; ///< the clinic's own
};

} // namespace catalogue
