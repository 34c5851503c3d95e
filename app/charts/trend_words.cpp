#include "app/charts/trend_words.h"

#include "core/telling/wording.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace charts
{

QString nowWords(const TrendLine& line, const base::Phrasebook& phrases)
{
    const TrendEntry* now = line.now();
    if (now == nullptr)
        return phrases("no value up to this visit");
    QString words = phrases("%1 on %2").arg(now->words, records::dayInWords(now->day));
    const bool hasEarlier = std::any_of(line.entries.data(), now, [](const TrendEntry& entry) {
        return entry.number || entry.absence == values::Absence::Unable;
    });
    if (const TrendEntry* previous = line.previous())
        words =
            phrases("%1; previous %2 on %3").arg(words, previous->words, records::dayInWords(previous->day));
    else if (hasEarlier)
        words = phrases("%1; none before is comparable").arg(words);
    const TrendEntry* reference = line.reference();
    using judging::Verdict;
    const bool isTold = now->verdict && *now->verdict != Verdict::NoThreshold;
    if (isTold && reference != nullptr)
        words =
            phrases("%1; against %2: %3").arg(words, records::dayInWords(reference->day), now->verdictWords);
    return words;
}

QStringList headingRows(const TrendLine& line, const base::Phrasebook& phrases)
{
    constexpr qsizetype mostCharacters = 90; // some 600 of the 670 pixels a letter's chart has
    const QString parted = QStringLiteral("; ");
    QStringList rows;
    for (const QString& part : nowWords(line, phrases).split(parted)) {
        if (!rows.isEmpty() && rows.last().size() + parted.size() + part.size() <= mostCharacters)
            rows.last() += parted + part;
        else
            rows << part;
    }
    return rows;
}

QString spoken(const TrendPoints& points, const base::Phrasebook& phrases)
{
    QStringList sentences;
    for (const TrendLine& line : points.lines) {
        const QString now = nowWords(line, phrases);
        sentences << (line.name.isEmpty() ? now : phrases("%1: %2").arg(line.name, now)) + u'.';
    }
    for (const TrendEvent& event : points.events)
        sentences << event.words + u'.';
    return (sentences + points.remarks).join(u' ');
}

} // namespace charts
