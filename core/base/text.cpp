#include "core/base/text.h"

#include <QHash>

#include <algorithm>
#include <functional>

namespace base
{

namespace
{

QString withoutDecomposition(char32_t letter)
{
    static const QHash<char32_t, QString> plain = {
        {u'ł', QStringLiteral("l")},  {u'ø', QStringLiteral("o")},  {u'đ', QStringLiteral("d")},
        {u'ð', QStringLiteral("d")},  {u'ħ', QStringLiteral("h")},  {u'ı', QStringLiteral("i")},
        {u'ß', QStringLiteral("ss")}, {u'æ', QStringLiteral("ae")}, {u'œ', QStringLiteral("oe")},
        {u'þ', QStringLiteral("th")}, {u'ŋ', QStringLiteral("n")},
    };
    return plain.value(letter, QString::fromUcs4(&letter, 1));
}

bool isBreak(char32_t letter)
{
    return letter == u'\n' || letter == u'\r' || letter == u'\t';
}

bool isControl(char32_t letter)
{
    const auto isWithin = [letter](char32_t first, char32_t last) {
        return letter >= first && letter <= last;
    };
    return letter < 0x20 || isWithin(0x7f, 0x9f) || letter == 0x061c || isWithin(0x200e, 0x200f) ||
           isWithin(0x2028, 0x202e) || isWithin(0x2066, 0x2069) || QChar::isSurrogate(letter) ||
           QChar::isNonCharacter(letter);
}

/// One character as it stands in a text, of one unit or of a pair.
struct Letter {
    char32_t letter = 0;
    qsizetype units = 1;
};

Letter letterAt(const QString& text, qsizetype place)
{
    const QChar first = text[place];
    if (first.isHighSurrogate() && place + 1 < text.size() && text[place + 1].isLowSurrogate())
        return {QChar::surrogateToUcs4(first, text[place + 1]), 2};
    return {first.unicode(), 1};
}

/// A break that does not stay becomes a space.
template <class Stays>
QString withoutBut(const QString& text, Stays stays)
{
    QString clean;
    for (qsizetype place = 0; place < text.size();) {
        const auto [letter, units] = letterAt(text, place);
        if (!isControl(letter) || stays(letter))
            clean += text.sliced(place, units);
        else if (isBreak(letter))
            clean += u' ';
        place += units;
    }
    return clean;
}

} // namespace

QString folded(const QString& text)
{
    QString key;
    const QString decomposed = text.normalized(QString::NormalizationForm_KD).toCaseFolded();
    const QList<uint> letters = decomposed.toUcs4();
    for (const char32_t letter : letters) {
        if (QChar::isLetterOrNumber(letter))
            key += withoutDecomposition(letter);
        else if (!QChar::isMark(letter))
            key += u' ';
    }
    return key.simplified();
}

QString tidied(const QString& text)
{
    QString tidy = text;
    tidy.remove(QChar(u'\0'));
    return tidy.trimmed();
}

qsizetype controlAt(const QString& text, Breaks breaks)
{
    for (qsizetype place = 0; place < text.size();) {
        const auto [letter, units] = letterAt(text, place);
        if (isControl(letter) && !(breaks == Breaks::Allowed && isBreak(letter)))
            return place;
        place += units;
    }
    return -1;
}

QString withoutControls(const QString& text, Breaks breaks)
{
    if (controlAt(text, breaks) < 0)
        return text;
    return withoutBut(text,
                      [breaks](char32_t letter) { return breaks == Breaks::Allowed && isBreak(letter); });
}

QString withoutControlsButIsolates(const QString& text)
{
    return withoutBut(
        text, [](char32_t letter) { return isBreak(letter) || letter == 0x2068 || letter == 0x2069; });
}

QString isolated(const QString& name)
{
    const QString clean = withoutControls(name);
    return clean.isEmpty() ? clean : QChar(0x2068) + clean + QChar(0x2069);
}

QString capitalised(const QString& words)
{
    return words.left(1).toUpper() + words.mid(1);
}

QString shortened(const QString& text, qsizetype most)
{
    if (text.size() <= most)
        return withoutControls(text);
    const qsizetype kept = text[most - 2].isHighSurrogate() ? most - 2 : most - 1;
    return withoutControls(text.first(kept)) + u'…';
}

bool isPrintable(QChar character)
{
    const char32_t letter = character.unicode();
    const bool isIsolate = letter == 0x2068 || letter == 0x2069; // what keeps a name to itself
    return letter == u'\n' || letter == u'\t' || isIsolate || character.isSurrogate() || !isControl(letter);
}

QString printable(const QString& text)
{
    QString shown = text;
    std::ranges::replace_if(shown, std::not_fn(isPrintable), QChar(QChar::ReplacementCharacter));
    return shown;
}

bool matches(const QStringList& keys, const QString& typed)
{
    const auto beginsOne = [&keys](const QString& word) {
        return std::ranges::any_of(keys, [&word](const QString& key) { return key.startsWith(word); });
    };
    const QString whole = folded(typed);
    if (whole.isEmpty() || beginsOne(whole))
        return true;
    const QStringList words = typed.split(u' ', Qt::SkipEmptyParts);
    return std::ranges::all_of(words, [&](const QString& word) { return beginsOne(folded(word)); });
}

} // namespace base
