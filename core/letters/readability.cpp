#include "core/letters/readability.h"

#include <QRegularExpression>

#include <algorithm>

namespace letters
{

namespace
{

/// Groups of vowels, without a silent e at the end: "once" 1, "table" 2, "walked" 1, "area" 3 counts as 2.
int syllablesOf(const QString& word)
{
    static const QRegularExpression groups(QStringLiteral("[aeiouy]+"));
    static const QRegularExpression silent(QStringLiteral("([^aeiouyl]e|[^aeiouytd]ed|[^aeiouyscxz]es)$"));
    const QString lower = word.toLower();
    int count = 0;
    auto found = groups.globalMatch(lower);
    while (found.hasNext()) {
        found.next();
        ++count;
    }
    if (count > 1 && silent.match(lower).hasMatch())
        --count;
    return std::max(count, 1);
}

} // namespace

std::optional<double> readingAge(const QString& text, const QString& language)
{
    if (!language.startsWith(QLatin1String("en")))
        return std::nullopt;
    static const QRegularExpression sentence(QStringLiteral("[.!?:]+(\\s|$)|\\n+"));
    static const QRegularExpression word(QStringLiteral("[\\p{L}\\p{N}]+(['’.,-][\\p{L}\\p{N}]+)*"));
    int sentences = 0;
    int words = 0;
    int syllables = 0;
    for (const QString& part : text.split(sentence, Qt::SkipEmptyParts)) {
        auto found = word.globalMatch(part);
        const int before = words;
        while (found.hasNext()) {
            ++words;
            syllables += syllablesOf(found.next().captured());
        }
        sentences += words > before ? 1 : 0;
    }
    if (words == 0)
        return std::nullopt;
    return 0.39 * words / sentences + 11.8 * syllables / words - 15.59 + 5;
}

} // namespace letters
