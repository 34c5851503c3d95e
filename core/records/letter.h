#pragma once

#include "core/records/author.h"
#include "core/records/ids.h"

#include <QByteArray>
#include <QDateTime>
#include <QStringList>

#include <optional>

namespace records
{

enum class LetterState { Draft, Signed };

/// A letter as it is stored: what the clinician wrote and chose while it is a draft; once signed off also the
/// document as it was signed, which never changes again.
struct Letter {
    base::Id<Letter> id;
    int revision = 0; ///< 0: never saved
    PatientId patient;
    VisitId visit;
    std::optional<VisitId> reference;         ///< the earlier visit the letter compares with
    std::optional<base::Id<Letter>> replaces; ///< the signed letter it corrects
    LetterState state = LetterState::Draft;
    QString kind = QStringLiteral("referral"); ///< id of a letters::Kind
    bool hasAnnex = false;                     ///< findings, arithmetic, sources and conditions in full
    QString language = QStringLiteral("en");   ///< BCP 47
    QString to;
    QString copiesTo;       ///< one a line
    QString urgency;        ///< in the clinic's own words; empty: not stated
    QString question;       ///< the question or purpose, one line
    QString actions;        ///< requested actions, one a line
    QString history;        ///< what the patient reports
    QString medicines;      ///< those that matter here; empty: not stated
    QString interpretation; ///< the clinician's words
    QString plan;           ///< one a line
    QString safetyNet;      ///< when to come back sooner, one a line
    QStringList leftOut;    ///< results the author keeps off the first page, "measure" or "measure/side"
    QStringList charts;     ///< "measure" or "measure/side"
    Author author;          ///< set when signed off
    QDateTime signedAt;     ///< UTC; invalid in a draft
    QString body;           ///< HTML of the pages as they were signed
    QByteArray pdf;         ///< the document as it was signed
    QByteArray odt;         ///< the same document to edit elsewhere

    bool operator==(const Letter&) const = default;
};

/// That a signed letter was given on, as its clinician noted it: printing and saving do not say so.
struct Handover {
    base::Id<Letter> letter;
    QDate day;
    QString way; ///< "by post"
    QString to;
    QString who;
    QDateTime notedAt; ///< UTC

    bool operator==(const Handover&) const = default;
};

/// That a letter about a visit was signed, without the letter.
struct LetterSigned {
    VisitId series; ///< of the visit
    QDateTime at;   ///< UTC
};

} // namespace records
