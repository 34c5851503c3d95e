#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"
#include "core/values/value.h"

namespace records
{

/// The number a person typed for a measure, with point or comma. Refuses what is no number, has more decimals
/// than the step allows (a time may be finer than its step), or lies outside the measure's range, in one
/// sentence that says what is allowed.
base::Result<double> numberTyped(const QString& typed, const catalogue::Measure& measure);

/// The value that follows from the trials by the measure's rule: the last (a repeat is done because the one
/// before did not count), the mean, unrounded, or the best. Missing{NotAsked} when there is no trial.
values::Value valueOfTrials(const std::vector<double>& trials, const catalogue::Measure& measure);

/// The measure's range and step in words: "0 to 10 steps, whole numbers", "2 to 300 s" (of a time as read
/// off).
base::Message allowedWords(const catalogue::Measure& measure);

/// What is wrong with a number as a value of a measure: outside its range, beyond its cap, or a walk of 0.
std::optional<base::Error> wrongWithNumber(double number, const catalogue::Measure& measure);

/// What is wrong with a number as it was read off: also one between the measure's steps (a mean of trials may
/// lie there, and a time), and a time at the cap that does not say the cap was reached.
std::optional<base::Error> wrongWithReading(double number, bool capReached,
                                            const catalogue::Measure& measure);

/// The error that says what is allowed: "Tandem steps achieved of 10: 0 to 10 steps, whole numbers."
base::Error allowedOnly(const catalogue::Measure& measure);

} // namespace records
