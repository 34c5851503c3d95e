#pragma once

#include "core/catalogue/own.h"

#include <map>

namespace own
{

/// In the order of the form.
enum class ThresholdField {
    Measure,
    Answers,
    Scale,
    Improvement,
    Decline,    ///< empty: as the improvement
    Basis,      ///< of the confidence: "stated", "inferred", "assumed", "empirical"
    Confidence, ///< percent
    BandOf,
    BandLow,
    BandHigh,
    BandHighIncluded,
    Population,
    PopulationWords,
    N,
    Design,
    Interval,
    DaysLow,
    DaysHigh,
    Repeats, ///< "between-days", "within-day", or empty: not stated
    Reference,
    Doi,
    ShortForm,
    Checked,
    Note
};

/// A threshold of the clinic's own as it is typed. What stands in a field without use is kept until the form
/// is left.
struct ThresholdDraft {
    catalogue::Threshold original;
    catalogue::Source source;
    bool isNew = true;
    std::map<ThresholdField, QString> typed;

    bool isChanged() const;
};

/// For a measure, which may be empty.
ThresholdDraft newThreshold(const QString& measure);
/// Filled with what is known of it already.
ThresholdDraft newThreshold(const catalogue::Threshold& row, const catalogue::Source& source);
ThresholdDraft draftOf(const catalogue::Threshold& row, const catalogue::Catalogue& catalogue);

/// Whether a field has a meaning beside what else is typed: an important change has no confidence, a row
/// without a band no ends.
bool matters(ThresholdField field, const ThresholdDraft& draft);
/// Whether a measure has differences that a threshold can be of.
bool hasDifferences(const catalogue::Measure& measure);

/// The row and its source, and for each field that is wrong one sentence.
struct CheckedThreshold {
    catalogue::Threshold row; ///< means nothing while something is wrong
    catalogue::Source source; ///< one of the catalogue where the same is there
    std::map<ThresholdField, QString> wrong;
};
CheckedThreshold checked(const ThresholdDraft& draft, const catalogue::Catalogue& catalogue,
                         const catalogue::Own& own);

} // namespace own
