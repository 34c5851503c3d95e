#pragma once

#include <QString>
#include <QStringList>

#include <optional>

namespace catalogue
{

/// What a published number asks of one condition: that one of these was recorded. Files write it
/// "assistance=none|supervision".
struct Requirement {
    QString condition; ///< id of a Condition
    QStringList values;

    /// Whether a value that was recorded is one of them, by whatever case and spaces it was written.
    bool allows(const QString& recorded) const;

    bool operator==(const Requirement&) const = default;
};

/// Empty where the text is not written so.
std::optional<Requirement> requirement(const QString& text);

/// As files write it; empty for none.
QString written(const std::optional<Requirement>& requirement);

} // namespace catalogue
