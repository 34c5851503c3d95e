#pragma once

#include "core/catalogue/catalogue.h"
#include "core/records/visit_form.h"

#include <QStringList>

#include <optional>
#include <vector>

namespace visits
{

/// Where one finding goes: a measure on one side.
struct Place {
    QString measure;
    records::Side side = records::Side::None;

    bool operator==(const Place&) const = default;
    bool operator<(const Place& other) const
    {
        return std::pair(measure, side) < std::pair(other.measure, other.side);
    }
    /// "finger-tapping.right", "berg-balance".
    QString name() const;
};

/// A section of a form with its tests in the form's order. The pointers are into the catalogue.
struct FormSection {
    QString id; ///< of the catalogue's section its first test belongs to, numbered where it stands before
    QString title;
    std::vector<const catalogue::Measure*> tests;
    QStringList expected; ///< the tests among them that are asked for each time

    bool operator==(const FormSection&) const = default;
};

/// The form's sections as it names them, less what the catalogue does not know. All tests are expected where
/// the form does not say which.
std::vector<FormSection> formSections(const catalogue::Catalogue& catalogue, const catalogue::Form& form);

/// The sections of the visit's own form; what was found beside it stands in a last one.
std::vector<FormSection> formSections(const catalogue::Catalogue& catalogue, const records::Visit& visit);

/// Whether something was said: a value, or why there is none. "Not asked" says nothing, as a blank does.
bool isAnswered(const records::Finding* finding);

using records::isAnswered;

struct Progress {
    int done = 0;          ///< expected tests answered on every side
    int expected = 0;      ///< tests asked for each time
    QStringList open = {}; ///< those of them that are not done
};

Progress progress(const FormSection& section, const records::Visit& visit,
                  const catalogue::Catalogue& catalogue);

/// The findings that "rest done, as expected" writes: for every blank grade and choice that is asked for each
/// time its normal value. What was answered, or has a note, is left alone.
std::vector<records::Finding> normalFindings(const FormSection& section, const records::Visit& visit);

/// The next place behind `from`, and round again, that is asked for each time and blank; what is computed
/// counts as answered. Empty where there is none. Begins at the form's first place where `from` is none of
/// its.
std::optional<Place> nextOpen(const std::vector<FormSection>& form, const Place& from,
                              const records::Visit& visit, const catalogue::Catalogue& catalogue);

/// The tests that are asked for each time or answered, in the form's order: those that one goes through one
/// at a time.
QStringList walkThrough(const std::vector<FormSection>& form, const records::Visit& visit);

/// The finding with another value; what stands beside the value is kept. Trials, taps and the cap go with the
/// old value.
records::Finding withValue(const records::Visit& visit, const Place& place, const values::Value& value);

} // namespace visits
