#pragma once

#include "app/console/verbs.h"

namespace console
{

// How the program is used, four times from the one table of verbs. In English, as the words that are typed.

QString help();
QString helpOf(const Verb& verb);

/// aplomb.1, in the macros of man(7).
QString manualPage(const QString& version);

/// The function and the call that complete verbs, options, their values and files in bash.
QString bashCompletion();

} // namespace console
