#pragma once

#include <QMap>
#include <QString>

namespace records
{

/// Condition id to what was recorded: words, or a number written in the C locale. Not recorded is absent or
/// empty. Shared until changed, because every result carries those of its visit.
using Conditions = QMap<QString, QString>;

/// What was recorded for one condition; empty when it was not.
inline QString recorded(const Conditions& conditions, const QString& id)
{
    return conditions.value(id);
}

/// The visit's conditions with a test's own exceptions laid over them (an empty exception means: not recorded
/// here).
Conditions withExceptions(Conditions conditions, const Conditions& exceptions);

} // namespace records
