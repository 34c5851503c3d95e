#pragma once

#include "core/judging/glance.h"
#include "core/records/as_of.h"
#include "core/records/happening.h"

namespace judging
{

/// The one change of a patient that a list of all patients names.
struct Strongest {
    QString measure;
    records::Side side = records::Side::None;
    OutcomeKind kind = OutcomeKind::Worse;
    Says by = Says::FirstVisit;         ///< of worse and better
    Strength strength = Strength::None; ///< of worse and better
    bool isSure = false;
    QDate since;

    bool operator==(const Strongest&) const = default;
};

/// What a patient is among all patients: worked out from the record alone, at the last signed visit, or at
/// the last one while nothing is signed.
struct CaseSummary {
    std::optional<QDate> visit;         ///< at which it was worked out; empty where nothing counts yet
    std::optional<Strongest> strongest; ///< empty where nothing changed
    bool isFirst = false;               ///< its results are the first of their tests
    int flags = 0;                      ///< results that are worse, better, or became unable or able
    double expectedFalse = 0;           ///< of the flags, if nothing had changed
    double chanceWorse = 1;             ///< how often error alone shows as much for the worse (chanceOfAny)
    double chanceBetter = 1;
    bool isWorse = false; ///< some result is worse beyond error
    bool isBetter = false;
    bool hasReversed = false;  ///< some result turned worse after improving
    bool isUnable = false;     ///< became unable to do a test
    bool hasWorseWord = false; ///< some word is no longer normal
    bool hasInjury = false;    ///< fell with injury since the visit before

    bool operator==(const CaseSummary&) const = default;
};

/// A patient in the list of all: what stands in the records now, and what was worked out of them.
struct Case {
    records::PatientId patient;
    QString family;
    QString given;
    QString sortName; ///< family and given name, folded
    QString recordNumber;
    QString population;
    std::optional<QDate> onset;
    QString clinician;                  ///< who signed last; empty while nothing is signed
    QString form;                       ///< of the visit signed last
    std::optional<QDate> lastSeen;      ///< the day of the visit signed last
    std::optional<QDate> draft;         ///< the day of a visit that waits to be signed, the newest of several
    bool hasUnsignedLetter = false;     ///< a letter waits to be signed
    std::optional<CaseSummary> summary; ///< empty: none was worked out from the record as it is
    QDateTime workedOutAt;              ///< UTC; of the summary
};

/// The version of how summaries are worked out: rises whenever the same record would give another one.
inline constexpr int summaryVersion = 2;

/// The record up to the last signed visit, or the last one while nothing is signed; empty without visits.
std::optional<records::AsOf> summarisedVisit(const std::vector<records::Visit>& visits);

/// A patient with what their summary was worked out from, for the lines that say it.
struct CaseLines {
    records::Patient patient;
    std::optional<Glance> glance; ///< empty without visits
};

CaseSummary caseSummary(const Ground& ground, const std::vector<records::Happening>& happenings);

} // namespace judging
