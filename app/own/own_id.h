#pragma once

#include <QString>
#include <QStringList>

namespace own
{

/// The id of a clinic's own entry, made from its title: "own-step-test", and "own-step-test-2" where that is
/// taken.
QString ownId(const QString& title, const QStringList& taken);

/// A key of small letters, digits and hyphens: "a little unsteady" is "a-little-unsteady". Empty where the
/// words hold neither letter nor digit.
QString keyOf(const QString& words);

} // namespace own
