#pragma once

#include "core/interpretation/comparability.h"
#include "core/interpretation/evidence.h"
#include "core/records/history.h"

namespace interpretation
{

enum class Verdict { Improved, Declined, WithinError, NotComparable, NoThreshold, BecameUnable, BecameAble };

/// "improved", "declined", "within-error", "not-comparable", "no-threshold", "became-unable" or "became-able".
QString code(Verdict verdict);

/// A published threshold worked out for one reference value, at 95 % confidence.
struct Applied {
    catalogue::Threshold row;
    double improvement = 0; ///< smallest change for the better beyond error, in the measure's unit
    double decline = 0;     ///< smallest change for the worse beyond error, in the measure's unit
    bool isConverted = false; ///< published at another confidence and converted by z

    /// The limit on the side the difference lies on.
    double limitFor(double difference, catalogue::Direction better) const;
};

/// One result held against one earlier result.
struct Comparison {
    QString measure;
    records::Side side = records::Side::None;
    records::Occasion reference;
    records::Occasion now;
    std::optional<double> difference; ///< now − reference, the measure's unit. Empty for grades, words and unable
    Comparability comparability;
    std::optional<Applied> threshold;
    std::vector<catalogue::Threshold> notUsed;
    std::optional<Applied> important; ///< published important change; a second answer, never mixed with the first
    Verdict verdict = Verdict::NoThreshold;
};

/// The row worked out at a reference and a present value.
Applied applied(const catalogue::Threshold& row, double reference, double now);

/// The standard error of measurement behind a row, in the measure's unit: as published, else from a smallest
/// detectable change by SEM = MDC95 / (1.96 · √2). Empty for empirical limits and for rows on another scale.
std::optional<double> standardErrorOf(const catalogue::Threshold& row);

/// `levels` are the values of the reference visit by measure id (for banded rows).
Comparison comparison(const catalogue::Catalogue& catalogue, const records::Patient& patient,
                      const records::Occasion& reference, const records::Occasion& now,
                      const std::map<QString, double>& levels);

} // namespace interpretation
