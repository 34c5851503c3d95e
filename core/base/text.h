#pragma once

#include <QStringList>

namespace base
{

/// The key by which names are found: without accents, case, punctuation or doubled spaces ("Łódź-Ügur" and
/// "lodz ugur" fold alike). Letters that Unicode does not decompose (ł, ø, ß, æ …) are mapped by hand.
QString folded(const QString& text);

/// The text without outer spaces and without the character U+0000.
QString tidied(const QString& text);

/// Whether line breaks and tabs belong to a text (notes do, names do not).
enum class Breaks { Forbidden, Allowed };

/// Where a text first holds a character that draws nothing and steers what stands around it: the control
/// characters of C0 and C1, U+061C, U+200E, U+200F, U+2028 to U+202E, U+2066 to U+2069, the noncharacters
/// (U+FFFE, U+FFFF …) and half a surrogate pair. −1: nowhere.
qsizetype controlAt(const QString& text, Breaks breaks);

/// The text without these; where breaks are forbidden, each line break or tab becomes a space.
QString withoutControls(const QString& text, Breaks breaks = Breaks::Forbidden);

/// A text that was put together of lines and isolated names: without controls but for U+2068, U+2069, line
/// breaks and tabs.
QString withoutControlsButIsolates(const QString& text);

/// A name between U+2068 and U+2069 and without controls, so that its direction turns nothing beside it.
/// Empty stays empty.
QString isolated(const QString& name);

/// With its first letter as at the beginning of a sentence.
QString capitalised(const QString& words);

/// At most so many characters of a text, without controls; "…" stands for what was cut.
QString shortened(const QString& text, qsizetype most = 60);

/// Whether a terminal takes the character for text: no control but the end of a line, the
/// tabulator and the isolates of a name.
bool isPrintable(QChar character);

/// The text with a replacement character in the place of each that is not printable.
QString printable(const QString& text);

/// Whether each word typed begins one of the folded keys. Nothing typed finds everything.
bool matches(const QStringList& keys, const QString& typed);

} // namespace base
