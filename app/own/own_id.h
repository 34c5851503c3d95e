#pragma once

#include <QString>
#include <QStringList>

#include <vector>

namespace own
{

/// The id of a clinic's own entry, made from its title: "own-step-test", and "own-step-test-2" where that is
/// taken.
QString ownId(const QString& title, const QStringList& taken);

/// The same beside entries that have their ids already.
template <class Entry>
QString ownId(const QString& title, const std::vector<Entry>& others)
{
    QStringList taken;
    for (const Entry& other : others)
        taken += other.id;
    return ownId(title, taken);
}

/// A key of small letters, digits and hyphens: "a little unsteady" is "a-little-unsteady". Empty where the
/// words hold neither letter nor digit.
QString keyOf(const QString& words);

} // namespace own
