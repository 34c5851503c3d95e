#pragma once

#include "core/base/error.h"
#include "core/base/phrasebook.h"

#include <QDateTime>

namespace session
{

/// The texts of core in the language of the screen.
const base::Phrasebook& screenPhrases();

/// What went wrong as one sentence in the language of the screen.
QString sentence(const base::Error& error);

/// 04-Mar-1951, with the month as the language of the screen says it.
QString dayInWords(QDate day);

/// "04-Mar-1951 09:30" by the clock of this place, of an instant in UTC.
QString instantInWords(const QDateTime& instant);

/// Texts in a row by a pattern of two places: "%1, %2", "%1; %2".
QString joined(const char* pattern, const QStringList& texts);

} // namespace session
