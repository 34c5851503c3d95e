#pragma once

#include "core/catalogue/catalogue.h"

#include <optional>

namespace own
{

/// The parts of a pattern, in the order they are shown.
enum class PatternPart { Needs, Supports, Contradicts };

/// A line of a pattern as it is edited: the head of a part, a test that is needed, or one finding of a rule.
/// The findings of one rule must hold together; its first is 0.
struct PatternRow {
    PatternPart part = PatternPart::Needs;
    int entry = -1; ///< of the tests or the rules; −1: the head
    int look = 0;   ///< of a rule

    bool isHead() const { return entry < 0; }
    bool isFinding() const { return !isHead() && part != PatternPart::Needs; }
    bool operator==(const PatternRow&) const = default;
};

/// A pattern as it is edited, and as it was.
struct PatternDraft {
    catalogue::Pattern pattern;
    std::optional<catalogue::Pattern> original; ///< empty: not kept yet

    bool isChanged() const { return pattern != original.value_or(catalogue::Pattern()); }
};

PatternDraft newPattern();
/// The clinic's own pattern; of one that comes with the program the clinic's own in its place.
PatternDraft draftOf(const catalogue::Pattern& pattern);

/// Every line from the top.
std::vector<PatternRow> rows(const catalogue::Pattern& pattern);

/// Puts a test behind the row, in its part. A needed test that is there already stays. Gives back where it
/// is.
PatternRow add(catalogue::Pattern& pattern, const QString& measure, const PatternRow& behind);
/// Puts a finding of a test into the rule of the row, to hold together with what stands there.
PatternRow addTogether(catalogue::Pattern& pattern, const QString& measure, const PatternRow& row);
/// Takes a needed test or one finding out; a rule goes with its last finding.
void remove(catalogue::Pattern& pattern, const PatternRow& row);

/// Of a row that is a finding.
catalogue::PatternRule& ruleAt(catalogue::Pattern& pattern, const PatternRow& row);
catalogue::Look& lookAt(catalogue::Pattern& pattern, const PatternRow& row);

/// A row for people: "Heel to shin: smoothness or tremor", "and Toe tapping: at least 2".
QString words(const catalogue::Pattern& pattern, const PatternRow& row,
              const catalogue::Catalogue& catalogue);
/// Of the head of a part.
QString words(PatternPart part);

/// What keeps the pattern from being saved, in one sentence; empty where nothing does.
QString wrongWith(const PatternDraft& draft, const catalogue::Catalogue& catalogue);

/// The pattern as it is saved: texts tidied, with an id of its own.
catalogue::Pattern finished(const PatternDraft& draft, const catalogue::Catalogue& catalogue);

} // namespace own
