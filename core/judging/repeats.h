#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/finding.h"
#include "core/records/ids.h"
#include "core/statistics/reliability.h"

namespace judging
{

/// Where the repeated results of an error study come from.
enum class RepeatSource {
    Trials,      ///< the trials of one visit: within one session, so that no day lies between them
    MarkedVisits ///< a visit marked as "no change expected since the last visit", and that last visit on an
                 ///< earlier day
};

struct RepeatQuestion {
    QString measure;
    records::Side side = records::Side::None;
    RepeatSource source = RepeatSource::Trials;
    QString population = {}; ///< id; people of it or a narrower one alone. Empty: all, whatever they have
};

/// One set of repeated results.
struct RepeatedResult {
    QDate day;                  ///< of the last of them
    int days = 0;               ///< from the first to the last
    std::vector<double> values; ///< the measure's unit, in the order they were taken
};

/// What one patient could give to an error study.
struct RepeatCandidates {
    bool isAsked = false;                ///< has the results the question is about, usable or not
    std::vector<RepeatedResult> results; ///< oldest first
};

/// Looks at the current visits of one patient, oldest first; drafts are passed over. A visit whose trials
/// reached the cap has none to give, since what was cut off cannot differ; nor has a marked visit whose
/// result is not comparable with the one before it, or of the same day. Who is not of the population asked
/// for has nothing to give.
RepeatCandidates repeatCandidates(const RepeatQuestion& question, const std::vector<records::Visit>& visits,
                                  const QString& population, const catalogue::Catalogue& catalogue);

/// The rows of an error study, each patient once.
struct RepeatedResults {
    statistics::Repeats repeats;
    int leftOut = 0; ///< patients who have such results, but none that is usable and as long as the others'
    QDate from;      ///< the days of the results taken; invalid without any
    QDate to;
    int fewestDays = 0; ///< between the first and the last of a row
    int mostDays = 0;
};

/// Of each patient the first result with the most common number of values; of two numbers as common, the
/// larger.
RepeatedResults repeatedResults(const std::vector<RepeatCandidates>& patients);

} // namespace judging
