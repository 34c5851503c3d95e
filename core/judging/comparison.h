#pragma once

#include "core/judging/comparability.h"
#include "core/judging/evidence.h"
#include "core/records/clinic.h"
#include "core/records/history.h"
#include "core/statistics/flag_rates.h"

namespace judging
{

enum class Verdict {
    Better,
    Worse,
    WithinError,
    NotComparable,
    NoThreshold,
    BecameUnable,
    BecameAble,
    StepBetter, ///< of a grade, or in direction alone of a count or a hold
    StepWorse,
    Changed, ///< of a word
    Same     ///< the same grade or word
};

/// "better", "worse", "within-error", "not-comparable", "no-threshold", "became-unable", "became-able",
/// "step-better", "step-worse", "changed" or "same".
QString code(Verdict verdict);

/// What a result was judged by, the best there is; never two mixed.
enum class Tier {
    None,       ///< not comparable, or nothing to judge by
    Published,  ///< an error published for this population
    Clinic,     ///< the clinic's own error study
    OwnScatter, ///< how much this patient's own earlier results differ from visit to visit
    Direction   ///< steps and words alone, which no error judges
};

/// "published", "clinic", "own-scatter" or "direction"; empty for none.
QString code(Tier tier);

/// Better or worse: larger than measurement error.
bool isBeyondError(Verdict verdict);

/// Better or worse, be it beyond error or by a step; empty for the others.
std::optional<Verdict> directionOf(Verdict verdict);

/// The confidence at which every change is judged.
inline constexpr double judgedAt = 0.95;

/// A published threshold worked out for one reference value, at 95 % confidence.
struct Applied {
    catalogue::Threshold row;
    double improvement = 0;   ///< smallest change for the better beyond error, in the measure's unit
    double decline = 0;       ///< smallest change for the worse beyond error, in the measure's unit
    double factor = 1;        ///< by which means of trials or visits narrow both: √((1/nb + 1/nc)/2)
    bool isConverted = false; ///< published at another confidence and converted by z

    /// The limit on the side the difference lies on.
    double limitFor(double difference, catalogue::Direction better) const;
    /// The same on the row's own scale, as published.
    double publishedFor(double difference, catalogue::Direction better) const;
};

/// A number held against the mean of the patient's own earlier ones, where no error is known for it.
struct OwnScatter {
    int visits = 0;       ///< earlier comparable ones, at least four
    double mean = 0;      ///< of them, the measure's unit
    double deviation = 0; ///< of one value, from their successive differences; never below what the measure
                          ///< or a stopwatch resolves
    double degrees = 0;   ///< of freedom
    double t = 0;         ///< (number − mean) / (deviation · √(1 + 1/visits))
    double limit = 0;     ///< what |t| must exceed at this visit

    /// How far from the mean a number must lie, the measure's unit.
    double limitInUnit() const;
};

/// A row that fits but was not used.
struct NotUsed {
    catalogue::Threshold row;
    WhyNot reason = WhyNot::LaterId;
};

/// What could not be seen from a reference, because the scale ends before a change is beyond error.
struct CannotShow {
    bool better = false;
    bool worse = false;

    bool operator==(const CannotShow&) const = default;
};

/// How often a change has been seen.
enum class Strength {
    None,
    SeenOnce,  ///< beyond error once
    Confirmed, ///< and still so, the same way, at the next comparable visits until the confirmation interval
    TrendSeenOnce, ///< the trend of all comparable visits goes that way too, beyond its bound at this visit
    Sustained      ///< as it did at the visit before and would without any one of the last three visits
};

/// "none", "seen-once", "confirmed", "trend-seen-once" or "sustained".
QString code(Strength strength);
std::optional<Strength> strengthFromCode(const QString& code);

/// The rule that raised a flag, and how often it flags people who are truly stable.
struct Raised {
    statistics::FlagRule rule = statistics::FlagRule::FirstVisit;
    int visits = 0;           ///< looked at so far
    double falseFlagRate = 0; ///< share of stable people flagged at least once within that many visits
};

/// "first-visit", "previous-visit", "best-visit", "confirmed", "sequential", "reversal", "order" or
/// "own-scatter".
QString code(statistics::FlagRule rule);

/// One result held against one earlier result.
struct Comparison {
    QString measure;
    records::Side side = records::Side::None;
    QString population;         ///< the patient's, for which thresholds were looked up; may be empty
    std::optional<QDate> onset; ///< the patient's
    records::Occasion reference;
    records::Occasion now;
    std::optional<double>
        difference; ///< now − reference, the measure's unit. Empty for grades, words and unable
    Comparability comparability;
    std::optional<Applied> threshold; ///< looked up for comparable numbers only
    std::vector<NotUsed> notUsed;     ///< best first
    std::optional<catalogue::Threshold>
        otherBand; ///< the row of the band the present visit lies in, where that is another one
    std::optional<records::EvidenceChoice>
        choice;                  ///< a clinician's for this measure, unless taken back to the rule
    bool isClinicChoice = false; ///< `choice` is the clinic's for this population, not one for this patient
    bool isChosen = false;       ///< the threshold is the row of `choice` or another band of it
    bool isHandUnknown = false;  ///< the threshold is the larger of those of both hands
    std::optional<Applied>
        important; ///< published important change; a second answer, never mixed with the first
    Verdict verdict = Verdict::NoThreshold;
    Tier tier = Tier::None;
    std::optional<int> steps;      ///< of a grade, now − reference
    std::optional<OwnScatter> own; ///< set where the tier is
    CannotShow cannotShow;         ///< beside the verdict, which stays; false where there is no threshold
    std::optional<double> z; ///< difference / (√2 · SEM) on the row's scale; empty for empirical limits
    /// That the true change goes the way of the difference, and that it is larger than the important change
    /// that way: normal error of this SEM, flat prior.
    std::optional<double> probabilityBeyondZero;
    std::optional<double> probabilityBeyondImportant;
    Strength strength = Strength::None; ///< set by a course of several visits
    std::optional<Raised> raised;       ///< set where the strength is
    std::optional<QDate>
        since; ///< set with it unless sustained: seen at every comparable visit from this day
};

/// How many trials or visits each value is the mean of.
struct Averaged {
    int reference = 1;
    int now = 1;

    /// √((1/nb + 1/nc)/2): what is left of the error of a difference between two single values.
    double factor() const;
};

/// The row worked out at a reference and a present value. Empty where it gives no positive limit (a
/// percentage of 0, a logarithm of 0). The direction matters to rows on the log scale only, whose limits up
/// and down differ.
std::optional<Applied> applied(const catalogue::Threshold& row, double reference, double now,
                               catalogue::Direction better = catalogue::Direction::HigherIsBetter);

/// The verdict on another present value against the same reference by the same row.
Verdict verdictOf(const Applied& threshold, double reference, double now, catalogue::Direction better);

/// Step better or worse of two grades or numbers, changed or same of two words or without a direction;
/// NoThreshold where it is neither.
Verdict verdictOfStep(const records::Finding& before, const records::Finding& now,
                      catalogue::Direction better);

/// The standard error of measurement behind a row, in the measure's unit: as published, else from a smallest
/// detectable change by SEM = MDC / (z · √2), z of the row's own confidence. Empty for empirical limits, for
/// important changes, and for rows on another scale.
std::optional<double> standardErrorOf(const catalogue::Threshold& row);

/// Not comparable comes first; then the turn between able and unable; then the numbers. Grades and
/// words, and where no error is known counts and holds, are held against each other by their direction alone.
/// Numbers of measures without a direction and "unable" at both visits have no threshold: NoThreshold. A
/// difference equal to the limit is within error. `levels` are the values of the reference visit by measure
/// id (for banded rows). `averaged` narrows the limits where a value is a mean of more than the row was
/// measured with. `judging` holds the clinic's own choices of rows.
Comparison comparison(const catalogue::Catalogue& catalogue, const records::Patient& patient,
                      const records::Occasion& reference, const records::Occasion& now,
                      const std::map<QString, double>& levels, Averaged averaged = {},
                      const records::Judging& judging = {});

} // namespace judging
