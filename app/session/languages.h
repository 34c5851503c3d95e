#pragma once

#include "core/base/message.h"

#include <vector>

namespace session
{

/// A language the program can speak and write letters in.
struct Language {
    QString code; ///< BCP 47: "en", "de"
    QString name; ///< in the language itself
};

inline const QString english = QStringLiteral("en");

/// English, and those a translation is built in for, by code.
const std::vector<Language>& languages();
bool isSpoken(const QString& code);

/// That the language an option names is none of them, and which are.
base::Message unspoken(const QString& option);

/// The first of these locale names ("de-AT", "C") that the program speaks; English where there is none.
QString spokenOf(const QStringList& wished);

/// The texts of core in a language; in English where the program does not speak it.
base::Phrasebook phrasesIn(const QString& code);

/// Makes sentences on standard error speak the language from then on, and screens where there is an
/// application already. Before any window is made.
void speak(const QString& code);
/// Which that is.
const QString& spoken();

} // namespace session
