#pragma once

#include "core/base/result.h"
#include "core/catalogue/measure.h"
#include "core/values/value.h"

#include <QStringList>

namespace visits
{

/// What stands in the fields of one number: its trials in order.
struct TypedTrials {
    std::vector<double> numbers;      ///< of the fields that hold an allowed number
    std::vector<int> trialNumbers;    ///< which fields these are, as in records::Finding
    std::optional<base::Error> wrong; ///< the first field that does not, in a sentence
    int wrongField = -1;              ///< which field that is, from 0
};

/// Reads the fields of a measure; an empty field is no trial.
TypedTrials trialsTyped(const QStringList& texts, const catalogue::Measure& measure);

/// The letter that says why there is no value: u unable, n not attempted, d did not wish, x not applicable.
/// Empty for any other.
std::optional<values::Absence> absenceTyped(QChar letter);
QChar letterOf(values::Absence absence);

/// The text of a stopped clock (ms) in seconds, as fine as the measure is recorded, rounded to the nearest.
QString secondsText(qint64 milliseconds, const catalogue::Measure& measure);

} // namespace visits
