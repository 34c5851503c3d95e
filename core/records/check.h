#pragma once

#include "core/records/reading.h"
#include "core/records/visit.h"

namespace records
{

/// What is wrong with a record, as one sentence that says what is allowed. Empty when nothing is.
std::optional<base::Error> wrongWith(const Patient& patient, const catalogue::Catalogue& catalogue,
                                     QDate today);
/// A time at the measure's cap needs `capReached`, so that a cap never stands for "unable"; holding on to the
/// cap is a result of its own (higher is better) and does not.
std::optional<base::Error> wrongWith(const Finding& finding, const catalogue::Catalogue& catalogue);
std::optional<base::Error> wrongWith(const Visit& visit, const Patient& patient,
                                     const catalogue::Catalogue& catalogue, QDate today);
/// What an entered total says against its parts, where all of them are recorded: of a sum of items and of the
/// short battery. A speed may differ from that of the timed walk; it may come from another one.
std::optional<base::Error> wrongWithTotal(const Visit& visit, const QString& measure,
                                          const catalogue::Catalogue& catalogue);
/// One condition's value against the catalogue's vocabulary and range.
std::optional<base::Error> wrongWithCondition(const QString& id, const QString& value,
                                              const catalogue::Catalogue& catalogue);

} // namespace records
