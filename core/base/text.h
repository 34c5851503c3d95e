#pragma once

#include <QStringList>

namespace base
{

/// The key by which names are found: without accents, case, punctuation or doubled spaces ("Łódź-Ügur" and
/// "lodz ugur" fold alike). Letters that Unicode does not decompose (ł, ø, ß, æ …) are mapped by hand.
QString folded(const QString& text);

/// The text without outer spaces and without the character U+0000.
QString tidied(const QString& text);

/// Characters that order a terminal about or turn the text around them: controls but for the end of a line
/// and the tabulator, and marks of direction.
bool isUnprintable(QChar character);

/// The text with a replacement character in the place of each unprintable one.
QString printable(const QString& text);

/// Whether each word typed begins one of the folded keys. Nothing typed finds everything.
bool matches(const QStringList& keys, const QString& typed);

} // namespace base
