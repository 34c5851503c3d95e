#pragma once

#include "core/base/phrasebook.h"
#include "core/catalogue/catalogue.h"

#include <functional>

namespace catalogue
{

/// An English title as it stands within a sentence: "walking aid"; an abbreviation keeps its capitals.
QString withinSentence(const QString& english);

/// The titles of an option and of a condition within a sentence, in the language of the catalogue they are
/// of.
QString withinSentence(const Option& option);
QString withinSentence(const Condition& condition);

/// The first part of an option's title, for where there is little room: "clear" of "clear, task done".
QString inShort(const Option& option);

/// Hands over every text that people read, to be read or changed: titles, words, handbook, notes of evidence.
/// Not ids and codes, names of sources, references, and what is the clinic's own.
void eachText(Catalogue& catalogue, const std::function<void(QString&)>& take);

/// The catalogue with every text in a language; ids, codes and numbers stay.
Catalogue inLanguage(Catalogue catalogue, const base::Phrasebook& phrases);

} // namespace catalogue
