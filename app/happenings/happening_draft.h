#pragma once

#include "core/base/result.h"
#include "core/records/happening.h"

namespace happenings
{

/// What stands in the entry of an event.
struct HappeningDraft {
    records::Happening of; ///< the event that is changed; version 0: a new one
    std::optional<records::HappeningKind> kind;
    QString from; ///< as typed
    QString until;
    records::Injury injury = records::Injury::NotStated;
    QString words;

    bool operator==(const HappeningDraft&) const = default;
};

HappeningDraft draftOf(const records::Happening& happening);

/// The event as far as it can be read; whether it may be stored the session says. Refused in one sentence.
base::Result<records::Happening> happeningOf(const HappeningDraft& draft);

/// The letter that stands for a kind at the ribbon and in the entry: f fall, r relapse …
QChar letterOf(records::HappeningKind kind);
/// Empty for any other.
std::optional<records::HappeningKind> kindTyped(const QString& letter);
/// In the order in which they are offered.
std::vector<records::HappeningKind> kinds();

} // namespace happenings
