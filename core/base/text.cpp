#include "core/base/text.h"

#include <QHash>

#include <algorithm>

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

bool isUnprintable(QChar character)
{
    const char16_t code = character.unicode();
    if (code == u'\n' || code == u'\t')
        return false;
    return code < 0x20 || (code >= 0x7f && code <= 0x9f) || code == 0x061c || code == 0x200e ||
           code == 0x200f || (code >= 0x202a && code <= 0x202e) || (code >= 0x2066 && code <= 0x2069) ||
           code == 0xfeff || code == 0xfffe || code == 0xffff;
}

QString printable(const QString& text)
{
    QString shown = text;
    std::ranges::replace_if(shown, isUnprintable, QChar(QChar::ReplacementCharacter));
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
