#pragma once

#include "core/base/message.h"
#include "core/base/phrasebook.h"
#include "core/records/clinic.h"

#include <vector>

namespace letters
{

/// A kind of letter is data: which sections it has, in which order, and with which sentences.
struct Kind {
    QString id;    ///< as in records::Letter::kind
    QString title; ///< "Referral letter", in the letter's language
    QString page;  ///< what stands in the body: XHTML as in Composition::body with mustache tags (kind_check)
    bool isOwn = false;     ///< the clinic's
    bool isRetired = false; ///< no longer offered

    bool operator==(const Kind&) const = default;
};

/// Those that come with the program: a referral, progress to the general practitioner, a discharge summary, a
/// plain letter to the patient, an urgent hand-over.
std::vector<Kind> kinds(const base::Phrasebook& phrases);

/// Those and the clinic's own, each in its newest version without a fault; retired ones as well, since a
/// letter may be of one. `versions` as they are stored.
std::vector<Kind> kinds(const base::Phrasebook& phrases, const std::vector<records::LetterKind>& versions);

/// Whether a letter of a kind that comes with the program asks something of someone its author names: a
/// referral or a hand-over.
bool asksSomeone(const QString& kind);

/// How much of a page a letter of the kind may fill before its annex: half where its page has the tag
/// {{! half a page }}, else all of it.
double roomOf(const Kind& kind);

/// The one with this id; a referral where there is none.
Kind kindOf(const QString& id, const std::vector<Kind>& kinds);

/// Of which kinds an older version is used, because the newest has a fault: a sentence each.
std::vector<base::Message> usedInstead(const std::vector<records::LetterKind>& versions);

} // namespace letters
