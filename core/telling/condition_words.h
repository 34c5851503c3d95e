#pragma once

#include "core/base/phrasebook.h"
#include "core/catalogue/catalogue.h"

namespace telling
{

/// The title of a condition within a sentence: "walking aid"; its id where the catalogue does not know it.
QString conditionInSentence(const QString& id, const catalogue::Catalogue& catalogue);

/// What was recorded for a condition, as a list shows it: "Walker with a seat", "10 m", "not recorded".
/// `condition` may be null for one the catalogue does not know.
QString conditionValue(const QString& recorded, const catalogue::Condition* condition,
                       const base::Phrasebook& phrases);

/// The same within a sentence: "walker with a seat". Words that are no option stay as they were typed.
QString conditionValueInSentence(const QString& recorded, const catalogue::Condition* condition,
                                 const base::Phrasebook& phrases);

/// Whom a row holds for, within a sentence: "help from a person: none or supervision".
QString requirementWords(const catalogue::Requirement& requirement, const catalogue::Catalogue& catalogue,
                         const base::Phrasebook& phrases);

} // namespace telling
