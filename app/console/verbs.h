#pragma once

#include "app/console/request.h"

#include <QStringList>

#include <vector>

namespace console
{

/// What a verb does with a request whose arguments are right.
using Work = base::Result<void> (*)(const Request& request);

/// A verb of the command line: what it needs, in the order of its usage, and what does the work.
struct Verb {
    QString name;
    QString what; ///< a sentence without its full stop
    QStringList positionals;
    QStringList needed = {};  ///< options with a value
    QStringList allowed = {}; ///< further options
    QStringList endings = {}; ///< which the file of --to may have; empty: it is a folder
    Work work = nullptr;      ///< nullptr: draws the screens, which lie above this room
    bool isOneNeeded = false; ///< exactly one of the first two that are allowed

    QStringList options() const;
    /// "letter RECORDS --patient NUMBER …"
    QString usage() const;
};

/// A word of the command line and what it means.
struct Word {
    QString name;
    QString value; ///< how its value is written, words to choose among with "|" between; empty: it takes none
    QString what;

    bool takesValue() const { return !value.isEmpty(); }
};

const std::vector<Verb>& verbs();
const Verb* verbNamed(const QString& name); ///< nullptr: there is none

/// The option of that name, its value written as the verb needs it.
Word optionOf(const Verb& verb, const QString& name);
/// Those that need no verb: of the window, or of every verb.
const std::vector<Word>& commonOptions();
QString positionalMeaning(const QString& name);

} // namespace console
