#pragma once

#include <QString>

#include <optional>

namespace letters
{

/// The age at which people read such a text with ease, in years: the grade level of Kincaid, Fishburne,
/// Rogers and Chissom 1975 plus five. Syllables are counted by their vowels. Empty for a language without an
/// index here (all but English) and for a text without a word.
std::optional<double> readingAge(const QString& text, const QString& language);

} // namespace letters
