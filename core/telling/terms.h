#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/comparison.h"
#include "core/telling/condition_words.h"

namespace telling
{

/// "0.18 m/s", "64.5 m": with the measure's decimals, and one more where the number needs it. `decimals` more
/// on top.
QString amount(double number, const catalogue::Measure& measure, const base::Phrasebook& phrases,
               int decimals = 0);

/// The same with its sign: "+0.15 m/s", "−3 points", "0 points".
QString signedAmount(double number, const catalogue::Measure& measure, const base::Phrasebook& phrases,
                     int decimals = 0);

/// How many more decimals show that two different numbers differ when they are written beside each other.
int tellingDecimals(double a, double b, const catalogue::Measure& measure);

/// The limit as the source published it, on its own scale: "0.18 m/s", "20 %", "0.23 of the mean".
QString publishedLimit(double limit, const catalogue::Threshold& row, const catalogue::Measure& measure,
                       const base::Phrasebook& phrases);

/// "MDC90 54.1 m × 1.96/1.645 = 64.5 m at 95 %": the step from the published confidence to ours. Empty where
/// the row needs none.
QString conversion(double published, const judging::Applied& threshold, const catalogue::Measure& measure,
                   const base::Phrasebook& phrases);

/// "Steffen & Seney 2008, Parkinson disease, n 37"; a value from memory says so.
QString sourceWords(const catalogue::Threshold& row, const catalogue::Catalogue& catalogue,
                    const base::Phrasebook& phrases);

/// The title of a population; its id where the catalogue does not know it.
QString populationWords(const QString& id, const catalogue::Catalogue& catalogue);

/// "walking aid was “none”, now “stick”", "footwear was not recorded on 12-Mar-2026".
QString mismatchWords(const judging::Mismatch& mismatch, const judging::Comparison& comparison,
                      const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// "slow, uneven": what was seen of a movement, in a row.
QString signsWords(const QStringList& signs, const catalogue::Measure& measure,
                   const base::Phrasebook& phrases);

/// Words as a sentence of their own: "Walking aid was …, now …." Nothing stays nothing.
QString sentence(const QString& words, const base::Phrasebook& phrases);

/// "84 days", "1 day", "2.5 days".
QString daysWords(double days, const base::Phrasebook& phrases);

} // namespace telling
