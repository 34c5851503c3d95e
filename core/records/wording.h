#pragma once

#include "core/base/phrasebook.h"
#include "core/catalogue/measure.h"
#include "core/records/finding.h"

namespace records
{

/// A number with as many decimals as the measure's step: 12.50 for a step of 0.01. No unit. A mean of trials
/// that lies between two steps has one more: 4.55 of 4.6 and 4.5.
QString written(double number, const catalogue::Measure& measure);

/// A reading as it was taken, one trial: a time that is finer than the measure's step keeps all its digits.
QString writtenTrial(double number, const catalogue::Measure& measure);

/// A value as people read it: "12.50 s", "clear (2)", "pronation and sinking", "unable: felt unsafe".
QString written(const values::Value& value, const catalogue::Measure& measure,
                const base::Phrasebook& phrases);

/// As `written`; a grade says all its word says and where it stands, for people who do not know the grades:
/// "clear, task done (grade 2; 0 as expected, 4 worst)".
QString writtenInFull(const values::Value& value, const catalogue::Measure& measure,
                      const base::Phrasebook& phrases);

/// "tried and unable", "not attempted", "did not wish", "not applicable", "not asked".
QString written(values::Absence absence, const base::Phrasebook& phrases);

/// The measure's title; the clinic's own is marked: "Seated reach (the clinic's own)".
QString titled(const catalogue::Measure& measure, const base::Phrasebook& phrases);

/// "Heel to shin, left"; the title alone without a side.
QString sidedTitle(const QString& title, Side side, const base::Phrasebook& phrases);
QString sidedTitle(const catalogue::Measure& measure, Side side, const base::Phrasebook& phrases);

/// "right", "left", or nothing.
QString written(Side side, const base::Phrasebook& phrases);

/// Which way is better: "0 is best, 4 is worst".
QString directionWords(const catalogue::Measure& measure, const base::Phrasebook& phrases);

} // namespace records
