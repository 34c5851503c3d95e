#pragma once

#include "core/judging/comparison.h"
#include "core/records/clinic.h"
#include "core/statistics/trend.h"

namespace judging
{

/// One visit of a run.
struct RunPoint {
    records::VisitId visit;
    QDate day;
    std::optional<double> number; ///< the measure's unit, or a grade's step; empty for "unable"
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

/// What a run of at least three numbers says as a whole. It is looked at anew at every visit, and only the
/// present look counts.
struct Trend {
    int n = 0; ///< visits; of several on one day the last
    bool isProvisional = false;
    bool mayBeSignificant = false;              ///< the smallest p of so many visits is at most 0.05
    std::optional<statistics::Slope> perYear;   ///< Theil–Sen, the unit per year. Empty for grades
    std::optional<double> p;                    ///< Mann–Kendall, two-sided. Empty for grades
    int agreement = 0;                          ///< pairs of visits that rise, less those that fall
    std::optional<statistics::Slope> efficient; ///< least squares with the row's SEM, the unit per year
    std::optional<double> z;                    ///< slope / its standard error, on the row's scale
    std::optional<double> bound;                ///< what |z| must exceed at this visit
    std::optional<Verdict> direction;           ///< better or worse, where |z| is beyond the bound now
    Strength strength = Strength::None;         ///< of the direction: TrendSeenOnce or Sustained
    QDate since;                                ///< the first of the looks that say so without a break
    std::optional<FormerTrend> former;          ///< the last one that fell
    std::optional<Raised> raised;               ///< what raised the direction
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
