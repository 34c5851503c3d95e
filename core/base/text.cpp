#include "core/base/text.h"

#include <QHash>

namespace base
{

namespace
{

QString withoutDecomposition(QChar letter)
{
    static const QHash<QChar, QString> plain = {
        {u'ł', QStringLiteral("l")},  {u'ø', QStringLiteral("o")},  {u'đ', QStringLiteral("d")},
        {u'ð', QStringLiteral("d")},  {u'ħ', QStringLiteral("h")},  {u'ı', QStringLiteral("i")},
        {u'ß', QStringLiteral("ss")}, {u'æ', QStringLiteral("ae")}, {u'œ', QStringLiteral("oe")},
        {u'þ', QStringLiteral("th")}, {u'ŋ', QStringLiteral("n")},
    };
    return plain.value(letter, QString(letter));
}

} // namespace

QString folded(const QString& text)
{
    QString key;
    const QString decomposed = text.toCaseFolded().normalized(QString::NormalizationForm_KD);
    for (const QChar letter : decomposed) {
        if (letter.isLetterOrNumber())
            key += withoutDecomposition(letter);
        else if (!letter.isMark())
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

} // namespace base
