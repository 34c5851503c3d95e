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
    std::optional<VisitId> reference; ///< the earlier visit the letter compares with
    LetterState state = LetterState::Draft;
    QString language = QStringLiteral("en"); ///< BCP 47
    QString to;
    QString copiesTo;       ///< one a line
    QString urgency;        ///< in the clinic's own words; empty: not stated
    QString question;       ///< the question or purpose, one line
    QString actions;        ///< requested actions, one a line
    QString history;        ///< what the patient reports
    QString interpretation; ///< the clinician's words
    QStringList charts;     ///< "measure" or "measure/side"
    Author author;          ///< set when signed off
    QDateTime signedAt;     ///< UTC; invalid in a draft
    QString body;           ///< HTML of the pages as they were signed
    QByteArray pdf;         ///< the document as it was signed
    QByteArray odt;         ///< the same document to edit elsewhere

    bool operator==(const Letter&) const = default;
};

/// That a letter about a visit was signed, without the letter.
struct LetterSigned {
    VisitId series; ///< of the visit
    QDateTime at;   ///< UTC
};

} // namespace records
