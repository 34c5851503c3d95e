#pragma once

#include "core/values/quantity.h"

#include <optional>
#include <variant>

namespace values
{

/// A step of an ordinal scale. Grades order; they have no difference and no mean.
struct Grade {
    int step = 0;
    auto operator<=>(const Grade&) const = default;
};

/// One of a measure's own words, by its key.
struct Choice {
    QString key;
    bool operator==(const Choice&) const = default;
};

enum class Absence {
    Unable,        ///< tried and could not
    NotAttempted,  ///< not tried; the reason says why
    Refused,       ///< the patient did not wish it
    NotApplicable, ///< cannot be asked of this person
    NotAsked       ///< not part of this examination
};

/// Why there is no value. Blank is never normal.
struct Missing {
    Absence why = Absence::NotAsked;
    QString reason;
    bool operator==(const Missing&) const = default;
};

using Value = std::variant<Quantity, Grade, Choice, Missing>;

inline bool isDone(const Value& value)
{
    return !std::holds_alternative<Missing>(value);
}

inline bool isUnable(const Value& value)
{
    const auto* missing = std::get_if<Missing>(&value);
    return missing != nullptr && missing->why == Absence::Unable;
}

/// The number of a quantity or the step of a grade. Empty for words and for a missing value.
std::optional<double> number(const Value& value);

/// "done", "unable", "not-attempted", "refused", "not-applicable" or "not-asked".
QString stateCode(const Value& value);
QString code(Absence absence);
/// Empty for "done" and for a word that is none of the states.
std::optional<Absence> absenceFromCode(const QString& code);

} // namespace values
