#pragma once

#include <QString>

#include <map>

namespace records
{

/// Condition id to what was recorded: words, or a number written in the C locale. Not recorded is absent or
/// empty.
using Conditions = std::map<QString, QString>;

/// What was recorded for one condition; empty when it was not.
inline QString recorded(const Conditions& conditions, const QString& id)
{
    const auto found = conditions.find(id);
    return found == conditions.end() ? QString() : found->second;
}

/// The visit's conditions with a test's own exceptions laid over them (an empty exception means: not recorded
/// here).
Conditions withExceptions(Conditions conditions, const Conditions& exceptions);

} // namespace records
