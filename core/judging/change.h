#pragma once

#include "core/judging/course.h"

namespace judging
{

/// What a visit says about one measure and side, held against earlier visits.
struct Change {
    QString measure;
    records::Side side = records::Side::None;
    records::Occasion now;
    std::optional<Comparison>
        previous; ///< the last comparable earlier visit; the last one of all where none is
    std::optional<Comparison>
        baseline; ///< the first comparable earlier visit; the first one of all where none is
    std::optional<Comparison> chosen;        ///< the reference visit asked for, where it holds this measure
    std::optional<Comparison> best;          ///< the best comparable earlier number, the first of equal ones
    std::optional<Comparison> lastConfirmed; ///< the level of the last confirmed change before now
    std::optional<Comparison>
        firstTwo; ///< the mean of the first two comparable numbers; empty unless both lie before now
    Course course;
    std::optional<QDate> practiceUntil; ///< up to this day's visit practice alone improves the measure
};

/// How many rules look at the course of a change anew at every visit, each with the level of a plan: trend
/// and reversal together or the order, and the own scatter.
int coursesWatched(const Change& change);

/// The numbers of one visit by measure, of this side and of measures without sides, that banded rows of the
/// measure ask for.
std::map<QString, double> levelsAt(const records::VisitId& visit, const QString& measure, records::Side side,
                                   const std::vector<records::Visit>& visits,
                                   const catalogue::Catalogue& catalogue);

/// The changes at one visit, in catalogue order, right before left: every finding done or unable there.
/// `reference` is an earlier visit to compare with besides.
std::vector<Change> changesAt(const records::VisitId& visit, const std::optional<records::VisitId>& reference,
                              const std::vector<records::Visit>& visits, const records::Patient& patient,
                              const catalogue::Catalogue& catalogue, const records::Judging& judging = {});

/// What is asked of one measure and side.
struct ProgressQuestion {
    QString measure;
    records::Side side = records::Side::None;
    std::optional<records::VisitId> visit;     ///< this visit; empty: the last
    std::optional<records::VisitId> reference; ///< empty: the baseline of this visit
};

/// One result among those of its measure and side.
struct Stage {
    records::Occasion occasion;
    std::optional<Comparability> sinceBefore; ///< with the result before it, where both have one
    std::optional<Comparison> held; ///< against the reference, as it was told at that visit; empty up to it,
                                    ///< and where there is no result
};

/// One measure and side over all visits, judged for one of them.
struct Progress {
    std::vector<Stage> stages;      ///< oldest first
    std::optional<Change> change;   ///< of this visit, else of the last before it that has a result
    std::optional<Comparison> held; ///< of this change: against the reference, else against the baseline
};

Progress progress(const ProgressQuestion& question, const Ground& ground);

/// The latest change of every measure and side over all visits.
std::vector<Change> latestChanges(const std::vector<records::Visit>& visits, const records::Patient& patient,
                                  const catalogue::Catalogue& catalogue,
                                  const records::Judging& judging = {});

/// What would be compared if `now` were recorded: for a form that shows the last comparable value beside a
/// field.
std::optional<records::Occasion> lastComparable(const std::vector<records::Occasion>& earlier,
                                                const records::Occasion& now, const records::Patient& patient,
                                                const catalogue::Catalogue& catalogue);

} // namespace judging
