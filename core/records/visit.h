#pragma once

#include "core/catalogue/measure.h"
#include "core/records/author.h"
#include "core/records/finding.h"
#include "core/records/patient.h"
#include "core/records/red_flags.h"
#include "core/records/visit_state.h"

#include <QDateTime>

namespace records
{

/// That a visit was entered in error, with all its versions: it stays readable and no longer counts.
struct Withdrawal {
    QString reason;
    Author author; ///< who withdrew it
    QDateTime at;  ///< UTC

    bool operator==(const Withdrawal&) const = default;
};

/// One version of one visit. An amendment is a new version of the same series with a reason; it starts as a
/// draft and becomes Amended when signed. A signed version never changes again.
struct Visit {
    base::Id<Visit> id;     ///< of this version
    base::Id<Visit> series; ///< the same for all versions of one visit; the id of the first
    int version = 1;
    int revision = 0; ///< 0: never saved
    PatientId patient;
    QDate day;
    VisitState state = VisitState::Draft;
    QString form; ///< form id of the catalogue
    std::optional<catalogue::Form>
        formAsMade; ///< the form as it stood when the visit was made; empty for visits older than that
    Conditions conditions;
    bool conditionsConfirmed = false; ///< carried forward until someone has confirmed them
    std::vector<Finding> findings;
    RedFlags redFlags;
    Author author;                       ///< who signed; empty in a draft
    QDateTime signedAt;                  ///< UTC; invalid in a draft
    QString amendmentReason;             ///< empty for the first version
    std::optional<Withdrawal> withdrawn; ///< the same for all versions; empty: it was not entered in error

    bool operator==(const Visit&) const = default;

    const Finding* finding(const QString& measure, Side side) const;
};

/// One finding of a visit as it was read alone, and the visit's revision then.
struct FindingRead {
    int revision = 0;
    std::optional<Finding> finding; ///< empty: there is none
};

/// Puts what was read of one measure and side into what was read of the visit before: in its place, or behind
/// the others where it is new.
void take(Visit& visit, const QString& measure, Side side, const FindingRead& read);

/// Of each series the version that counts: the newest signed one, or the draft while nothing is signed.
/// Oldest day first. `draftsToo` takes an open amendment in place of the version it amends. What was entered
/// in error does not count; this alone decides it, for judging, trends, letters and every export.
std::vector<Visit> current(const std::vector<Visit>& versions, bool draftsToo = false);

/// The same, drafts too, with the visits entered in error among them: for where the history is read.
std::vector<Visit> onRecord(const std::vector<Visit>& versions);
} // namespace records
