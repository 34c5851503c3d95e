#pragma once

#include "app/charts/agreement_chart.h"
#include "core/judging/repeats.h"
#include "core/records/clinic.h"
#include "core/statistics/error_study.h"

namespace own
{

enum class StudySource {
    Trials,       ///< within-session repeats: they know nothing of the change from day to day
    MarkedVisits, ///< visits on different days between which no change was expected
    File          ///< somebody else's list; of the days between its trials it says nothing
};

/// The clinic's own error of one measure, as its screen and its report tell it.
struct OwnError {
    catalogue::Measure measure;
    records::Side side = records::Side::None;
    StudySource source = StudySource::Trials;
    catalogue::Population population = {}; ///< of the people taken from the records; without id: all of them
    QString file;                          ///< name of the file, without its folder; empty: from the records
    judging::RepeatedResults results;
    bool isLog = false;                          ///< `study` is of the natural logarithms
    bool mayLog = false;                         ///< every value is above 0
    bool grows = false;                          ///< the error grows with the level, as measured
    std::optional<statistics::ErrorStudy> study; ///< empty where the results do not make one
};

/// Makes the study; the logarithms are taken only where every value is above 0.
OwnError worked(OwnError asked);

/// Whether every value is one the measure can have; a file may be of another measure or unit.
bool isInRange(const OwnError& error);

/// Whether it may stand in for a published error between days: of enough people, of one population where they
/// come from the records, of this measure, and not of repeats within one session.
bool mayStandIn(const OwnError& error);

/// Of two trials the differences against the means; of more, each trial less the person's own mean. Without
/// points where there is no study.
charts::AgreementPoints agreementPoints(const OwnError& error);

/// MDC at 95 % as a threshold of the clinic's own, and its source. What nobody has said stays empty: of a
/// file the population, the days between and what was expected.
std::pair<catalogue::Threshold, catalogue::Source> asThreshold(const OwnError& error,
                                                               const records::Clinic& clinic, QDate today);

} // namespace own
