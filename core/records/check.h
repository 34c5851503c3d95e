#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"
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
/// One condition's value against the catalogue's vocabulary and range.
std::optional<base::Error> wrongWithCondition(const QString& id, const QString& value,
                                              const catalogue::Catalogue& catalogue);

/// The number a person typed for a measure, with point or comma. Refuses what is no number, has more decimals
/// than the step allows, or lies outside the measure's range, in one sentence that says what is allowed.
base::Result<double> numberTyped(const QString& typed, const catalogue::Measure& measure);

/// The value that follows from the trials by the measure's rule: the last (a repeat is done because the one
/// before did not count), the mean, unrounded, or the best. Missing{NotAsked} when there is no trial.
values::Value valueOfTrials(const std::vector<double>& trials, const catalogue::Measure& measure);

/// The measure's range and step in words: "0 to 10 steps, whole numbers", "2 to 300 s, at most one decimal".
QString allowedWords(const catalogue::Measure& measure);

} // namespace records
