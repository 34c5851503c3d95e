#pragma once

#include "core/judging/comparison.h"
#include "core/records/clinic.h"
#include "core/statistics/scatter.h"
#include "core/statistics/trend.h"

namespace judging
{

/// One visit of a run.
struct RunPoint {
    records::VisitId visit;
    QDate day;
    std::optional<double> number; ///< the measure's unit, or a grade's step; empty for "unable" and words
    bool isUnable = false;
};

/// A change that later visits bore out. The result of the last of them is the new level.
struct Confirmation {
    RunPoint reference; ///< the level it left
    RunPoint seen;      ///< first beyond error
    RunPoint confirmed; ///< still so, the same way, at least the interval later
    Verdict verdict = Verdict::WithinError;
};

RunPoint pointOf(const records::Occasion& occasion);

/// Those of a run that hold numbers.
std::vector<const records::Occasion*> numbersOf(const std::vector<const records::Occasion*>& run);

/// A flag of the trend that was raised and fell again.
struct FormerTrend {
    Verdict direction = Verdict::Better;
    QDate since;
    QDate until; ///< the last look at which it stood
};

/// The standard error of one value that a run is judged by: as published, and from the fifth visit on drawn
/// toward the patient's own scatter. Of the value, or of its natural logarithm.
struct RunError {
    bool isOfLogarithm = false;
    double published = 0;
    std::optional<statistics::Scatter> own;
    double used = 0;
};

/// The line that judges: least squares, on the scale of the error.
struct RunLine {
    double perYear = 0;
    double atFirst = 0; ///< on the day of the first number
};

/// The mean of the last two visits lies beyond the bound from that of the best or the worst two neighbours
/// before them.
struct Reversal {
    Verdict direction = Verdict::Worse;
    double z = 0;     ///< difference of the means / standard error; below 0 where the values fell
    double bound = 0; ///< what |z| must exceed at this visit
    QDate from;       ///< the days of the two neighbours
    QDate until;
    double before = 0;                           ///< their mean, the measure's unit
    double now = 0;                              ///< that of the last two
    QDate since;                                 ///< the first of the looks that say so without a break
    Strength strength = Strength::TrendSeenOnce; ///< or Sustained
    std::optional<Raised> raised;
};

/// What a run of at least three numbers says as a whole. It is looked at anew at every visit, and only the
/// present look counts.
struct Trend {
    int n = 0; ///< visits; of several on one day the last
    bool isProvisional = false;
    bool mayBeSignificant = false;              ///< the smallest p of so many visits is at most 0.05
    std::optional<double> p;                    ///< Mann–Kendall, two-sided; of grades by permutation
    int agreement = 0;                          ///< pairs of visits that rise, less those that fall
    std::optional<statistics::Slope> efficient; ///< least squares with the error used, the unit per year
    std::optional<RunError> error;              ///< where the row has an even one
    std::optional<RunLine> line;                ///< with it
    std::optional<double> z;                    ///< slope / its standard error, on the row's scale
    std::optional<double> bound;                ///< what |z| must exceed at this visit
    std::optional<double> pDue;                 ///< where no error is known the order judges: what its p must
                                                ///< be below at this visit
    std::optional<double> orderP;               ///< that p, by permutation
    std::optional<Verdict> direction;           ///< better or worse, where it is flagged now
    Strength strength = Strength::None;         ///< of the direction: TrendSeenOnce or Sustained
    QDate since;                                ///< the first of the looks that say so without a break
    std::optional<FormerTrend> former;          ///< the last one that fell
    std::optional<Raised> raised;               ///< what raised the direction
    std::optional<Reversal> reversal;           ///< a turn that is there now
};

/// The visits comparable with the newest one, and what they say together.
struct Course {
    std::vector<RunPoint> run; ///< oldest first; the newest is the last
    int confirmAfterDays = 0;
    std::vector<Confirmation> confirmations; ///< oldest first
    std::optional<Trend> trend;              ///< empty below three numbers
};

/// What courses are judged with.
struct Ground {
    const std::vector<records::Visit>& visits;
    const records::Patient& patient;
    const catalogue::Catalogue& catalogue;
    const records::Judging& judging;

    Comparison compared(const records::Occasion& reference, const records::Occasion& now,
                        Averaged averaged = {}) const;
};

/// `run` holds the occasions that are comparable with the last of them, done or unable, oldest first. The row
/// is chosen once for each reference, as for its comparison with the last.
Course courseOf(const std::vector<const records::Occasion*>& run, const Ground& ground);

/// Sets the strength of a comparison between two of the run, which is that of its own direction, and what
/// raised it.
void strengthen(Comparison& comparison, statistics::FlagRule rule,
                const std::vector<const records::Occasion*>& run, const Course& course, const Ground& ground);

} // namespace judging
