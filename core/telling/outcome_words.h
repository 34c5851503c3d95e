#pragma once

#include "core/base/phrasebook.h"
#include "core/judging/outcome.h"

namespace telling
{

/// What a change comes to, as a list tells it: "worse, sustained", "2 steps worse", "not compared".
QString outcomeWords(const judging::Outcome& outcome, const judging::Change& change,
                     const base::Phrasebook& phrases);

/// "worse, sustained", "turned worse, seen once"
QString claimWords(const judging::Claim& claim, const base::Phrasebook& phrases);

/// The same in the room of a letter's cell, with how sure, or why it is not compared: "worse beyond error,
/// sustained over 7 visits, since 12-Mar-2024", "within error", "not compared: walking aid was …".
QString verdictLine(const judging::Outcome& outcome, const judging::Change& change,
                    const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases);

/// A value where its test stands beside it: a grade as its number, unable without its reason.
QString shortly(const values::Value& value, const catalogue::Measure& measure,
                const base::Phrasebook& phrases);

/// How sure, with since when: "sustained over 7 visits, since 12-Mar-2024", "seen once". `until`: of the
/// others that it is said of together some are so since later days, up to this one.
QString strengthWords(const judging::Claim& claim, const judging::Change& change, const QDate& until,
                      const base::Phrasebook& phrases);

/// A result from where it was to where it is: "455 → 371 m", "negative → positive", "1 → 3" of a grade.
QString wayWords(const values::Value& before, const values::Value& now, const catalogue::Measure& measure,
                 const base::Phrasebook& phrases);

/// A result in one part of a sentence: "6-minute walk distance: 455 → 371 m". `isOfBothSides`: the other side
/// comes to the same, and this one stands for both.
QString told(const judging::Outcome& outcome, const judging::Change& change,
             const catalogue::Measure& measure, bool isOfBothSides, const base::Phrasebook& phrases);

} // namespace telling
