#pragma once

#include "core/catalogue/catalogue.h"

#include <optional>

namespace own
{

/// A line of the form as it is edited: the head of a section, or a measure in it.
struct Row {
    int section = 0;
    int measure = -1; ///< −1: the head

    bool isHead() const { return measure < 0; }
    bool operator==(const Row&) const = default;
};

/// A form as it is edited, and as it was.
struct FormDraft {
    catalogue::Form form;
    std::optional<catalogue::Form> original; ///< empty: not kept yet

    bool isChanged() const { return form != original.value_or(catalogue::Form()); }
};

/// An empty form of the clinic's own, with one section to begin with. The id is made when it is saved.
FormDraft newForm();
/// The clinic's own copy of any form, under another title. Measures that are retired are left out.
FormDraft copyOf(const catalogue::Form& form, const catalogue::Catalogue& catalogue);
FormDraft draftOf(const catalogue::Form& form);

/// Every line from the top. Each measure stands once.
std::vector<Row> rows(const catalogue::Form& form);

/// Puts a measure behind the row; a measure that is there already stays where it is. Gives back where it is.
Row add(catalogue::Form& form, const QString& measure, const Row& behind);
/// Puts an empty section behind the one of the row.
Row addSection(catalogue::Form& form, const QString& title, const Row& behind);
/// Takes a measure out, or a section with its measures.
void remove(catalogue::Form& form, const Row& row);
/// Moves a measure or a whole section by one, up (−1) or down (+1); a measure at the end of its section goes
/// on into the next. Empty where there is no further.
std::optional<Row> moved(catalogue::Form& form, const Row& row, int step);
void setExpected(catalogue::Form& form, const QString& measure, bool isExpected);

/// What keeps the form from being saved, in one sentence; empty where nothing does.
QString wrongWith(const FormDraft& draft, const catalogue::Catalogue& catalogue);

/// The form as it is saved: titles tidied, the expected measures in the order of the form, an id of its own.
catalogue::Form finished(const FormDraft& draft, const catalogue::Catalogue& catalogue);

} // namespace own
