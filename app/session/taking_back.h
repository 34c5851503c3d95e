#pragma once

#include "app/session/session.h"

namespace session
{

/// An import that can be taken back.
struct LastImport {
    QString file;
    QDateTime at;         ///< UTC
    qsizetype visits = 0; ///< new, amended, or drafts added to
};

/// What taking an import back has changed.
struct TakenBack {
    int withdrawn = 0;  ///< new visits, now entered in error
    int amendments = 0; ///< visits that hold again what they held before, as a further amendment
    int drafts = 0;     ///< that hold again what they held before
    int patients = 0;   ///< new, who stay without a visit that counts

    bool operator==(const TakenBack&) const = default;
};

/// The newest import that is not taken back yet; empty where there is none.
base::Result<std::optional<LastImport>> lastImport(Session& session);

/// Takes back what the last import wrote, whole or not at all. What was signed stays readable: a new visit is
/// marked as entered in error, an amended one is amended once more to what it held before. A draft loses what
/// went into it, a patient what was filled in; a new patient stays. Refused where anything was signed,
/// amended, marked or typed on top of it, or a letter is about it. In the name of the author.
base::Result<TakenBack> takeBackImport(Session& session, const records::Author& author,
                                       const records::Progress& progress = {});

} // namespace session
