#pragma once

#include "core/catalogue/evidence.h"

#include <vector>

namespace catalogue
{

/// What a finding of one measure must be. All that is given must hold; at least one of it is.
struct Look {
    QString measure;            ///< id
    QStringList options;        ///< of a choice: one of these words
    std::optional<double> from; ///< of a grade or number: at least this, in the measure's unit
    std::optional<double> to;   ///< at most this
    QStringList signs;          ///< one of these was seen beside it

    bool operator==(const Look&) const = default;
};

/// Findings that speak for a pattern, or against it, where all looks hold on one side (or on none).
struct PatternRule {
    std::vector<Look> looks;
    QString source; ///< id of a Source; empty: common practice, no source
    Checked checked = Checked::Memory;

    bool operator==(const PatternRule&) const = default;
};

/// Findings that are seen together. It is read as what supports it, what contradicts it and what was not
/// tested; it is no diagnosis and has no score.
struct Pattern {
    QString id;
    QString title;
    QStringList needs; ///< measures without which nothing is said of it
    std::vector<PatternRule> supports;
    std::vector<PatternRule> contradicts;
    QString note;       ///< what to mind when it is read
    QString replaces;   ///< id of the pattern that comes with the program in whose place this one stands; may
                        ///< be empty
    bool isOwn = false; ///< the clinic's own

    bool operator==(const Pattern&) const = default;
};

} // namespace catalogue
