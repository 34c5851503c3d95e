#pragma once

#include "core/records/author.h"
#include "core/records/clinic.h"
#include "core/records/finding.h"
#include "core/records/ids.h"
#include "core/records/reading.h"
#include "core/records/red_flags.h"

namespace records
{

struct Target;

// The one door: whatever writes into the records asks here first, and `aplomb check` asks the same of
// everything stored.

/// What is wrong with a record, as one sentence that says what is allowed. Empty when nothing is.
std::optional<base::Error> wrongWith(const Patient& patient, const catalogue::Catalogue& catalogue,
                                     QDate today);
/// A time at the measure's cap needs `capReached`, so that a cap never stands for "unable"; holding on to the
/// cap is a result of its own (higher is better) and does not.
std::optional<base::Error> wrongWith(const Finding& finding, const catalogue::Catalogue& catalogue);
std::optional<base::Error> wrongWith(const Visit& visit, const Patient& patient,
                                     const catalogue::Catalogue& catalogue, QDate today);
/// Everything that is wrong with a visit, its findings, conditions, exceptions and totals; the first of it is
/// what wrongWith says. No sentence holds what was found.
std::vector<base::Error> everythingWrongWith(const Visit& visit, const Patient& patient,
                                             const catalogue::Catalogue& catalogue, QDate today);
/// The visit as it would be with this finding in place of the one of the same measure and side: the finding
/// itself, and every entered total it is a part of.
std::optional<base::Error> wrongWith(const Visit& visit, const Finding& finding,
                                     const catalogue::Catalogue& catalogue);
std::optional<base::Error> wrongWith(const Author& author);
std::optional<base::Error> wrongWith(const Letter& letter);
std::optional<base::Error> wrongWith(const Handover& handover);
/// An event's days lie between birth and today; an injury is of a fall; another kind of event has words.
std::optional<base::Error> wrongWith(const Happening& happening, const Patient& patient, QDate today);
/// A target is of a measure that has a better end, on a side it has, and a value it may have.
std::optional<base::Error> wrongWith(const Target& target, const Patient& patient,
                                     const catalogue::Catalogue& catalogue, QDate today);
std::optional<base::Error> wrongWith(const Clinic& clinic);
std::optional<base::Error> wrongWith(const LetterKind& kind);
/// A visit is not signed with a red flag answered yes of which it is not said what was done about it, and
/// when.
std::optional<base::Error> wrongWithSigning(const Visit& visit);
/// Answers about red flags: to questions of the catalogue; what was done, only of a yes, from the day of the
/// visit to today.
std::optional<base::Error> wrongWith(const RedFlags& flags, QDate visitDay,
                                     const catalogue::Catalogue& catalogue, QDate today);
/// Why something was done: an amendment, a choice of evidence, a declaration.
std::optional<base::Error> wrongWithReason(const QString& reason);
/// Conditions, each against the catalogue's vocabulary and range.
std::optional<base::Error> wrongWith(const Conditions& conditions, const catalogue::Catalogue& catalogue);
/// What an entered total says against its parts, where all of them are recorded: of a sum of items and of the
/// short battery. A speed may differ from that of the timed walk; it may come from another one.
std::optional<base::Error> wrongWithTotal(const Visit& visit, const QString& measure,
                                          const catalogue::Catalogue& catalogue);
/// One condition's value against the catalogue's vocabulary and range.
std::optional<base::Error> wrongWithCondition(const QString& id, const QString& value,
                                              const catalogue::Catalogue& catalogue);

} // namespace records
