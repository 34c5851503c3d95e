#pragma once

#include "core/catalogue/catalogue.h"

#include <map>

namespace own
{

/// In the order of the form.
enum class MeasureField {
    Title,
    ShortForm,
    Section,
    Kind,
    Unit,
    Lowest,
    Highest,
    Step,
    Better,
    Sides,
    Words, ///< one a line: the answers of a choice, or the words for a grade's steps from the lowest
    Rule,
    Trials,
    Cap,
    Purpose,
    How,
    Position,
    Equipment,
    UnableMeans,
    Caution
};

/// A measure of the clinic's own as it is typed. What stands in a field that the kind has no use for is kept
/// until the form is left.
struct MeasureDraft {
    catalogue::Measure original;
    bool isNew = true;
    std::map<MeasureField, QString> typed;
    std::map<QString, QString> conditions; ///< condition id to the word for its strictness

    bool isChanged() const;
};

MeasureDraft newMeasure(const catalogue::Catalogue& catalogue);
MeasureDraft draftOf(const catalogue::Measure& measure);

/// Whether a measure of this kind has such a field.
bool matters(MeasureField field, catalogue::Kind kind);
catalogue::Kind kindOf(const MeasureDraft& draft);
/// The units a kind can be recorded in; the first is the usual one.
std::vector<values::Unit> unitsOf(catalogue::Kind kind);

/// The measure the draft stands for, and for each field that is wrong one sentence.
struct CheckedMeasure {
    catalogue::Measure measure; ///< means nothing while something is wrong
    std::map<MeasureField, QString> wrong;
};
CheckedMeasure checked(const MeasureDraft& draft, const catalogue::Catalogue& catalogue);

} // namespace own
