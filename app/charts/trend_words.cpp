#include "app/charts/trend_words.h"

#include "core/telling/wording.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace charts
{

namespace
{

/// What this visit found and what it means, in parts.
QStringList nowParts(const TrendLine& line, const base::Phrasebook& phrases)
{
    const TrendEntry* now = line.now();
    if (now == nullptr)
        return {phrases("no value up to this visit")};
    QStringList parts = {phrases("%1 on %2").arg(now->words, records::dayInWords(now->day, phrases))};
    const bool hasEarlier = std::any_of(line.entries.data(), now, [](const TrendEntry& entry) {
        return entry.number || entry.absence == values::Absence::Unable;
    });
    if (const TrendEntry* previous = line.previous())
        parts +=
            phrases("previous %1 on %2").arg(previous->words, records::dayInWords(previous->day, phrases));
    else if (hasEarlier)
        parts += phrases("none before is comparable");
    const TrendEntry* reference = line.reference();
    using judging::Verdict;
    const bool isTold =
        now->verdict && *now->verdict != Verdict::NoThreshold && *now->verdict != Verdict::Same;
    if (isTold && reference != nullptr)
        parts +=
            phrases("against %1: %2").arg(records::dayInWords(reference->day, phrases), now->verdictWords);
    return parts;
}

/// "22.6 s; −1.5 s; within error"
QString entryWords(const TrendEntry& entry, bool isBaseline, const base::Phrasebook& phrases)
{
    QString meaning = entry.verdictWords;
    if (entry.isReference)
        meaning = isBaseline ? phrases("baseline") : phrases("reference visit");
    return phrases.joined("%1; %2", {entry.words, entry.differenceWords, meaning,
                                     entry.isDraft ? phrases("draft") : QString()});
}

} // namespace

QString nowWords(const TrendLine& line, const base::Phrasebook& phrases)
{
    return phrases.joined("%1; %2", nowParts(line, phrases));
}

QStringList headingRows(const TrendLine& line, const base::Phrasebook& phrases)
{
    constexpr qsizetype mostCharacters = 90; // some 600 of the 670 pixels a letter's chart has
    QStringList rows;
    for (const QString& part : nowParts(line, phrases)) {
        const QString longer = rows.isEmpty() ? part : phrases.joined("%1; %2", {rows.last(), part});
        if (!rows.isEmpty() && longer.size() <= mostCharacters)
            rows.last() = longer;
        else
            rows << part;
    }
    return rows;
}

QString readingWords(const TrendPoints& points, const records::VisitId& visit,
                     const base::Phrasebook& phrases)
{
    QStringList sentences;
    QStringList conditions;
    for (const TrendLine& line : points.lines) {
        const auto entry = std::ranges::find(line.entries, visit, &TrendEntry::visit);
        if (entry == line.entries.end())
            continue;
        if (sentences.isEmpty())
            sentences << phrases("%1.").arg(records::dayInWords(entry->day, phrases));
        const QString words = entryWords(*entry, points.isBaseline, phrases);
        sentences << (line.name.isEmpty() ? phrases("%1.").arg(words)
                                          : phrases("%1: %2.").arg(line.name, words));
        conditions << entry->conditions;
    }
    for (const TrendEvent& event : points.events) {
        if (event.visit == visit)
            sentences << phrases("%1.").arg(event.label);
    }
    conditions.removeDuplicates();
    if (!conditions.isEmpty())
        sentences << phrases("%1.").arg(phrases.joined("%1; %2", conditions));
    return phrases.joined("%1 %2", sentences);
}

QString spoken(const TrendPoints& points, const base::Phrasebook& phrases)
{
    QStringList sentences;
    for (const TrendLine& line : points.lines) {
        const QString now = nowWords(line, phrases);
        sentences << (line.name.isEmpty() ? phrases("%1.").arg(now) : phrases("%1: %2.").arg(line.name, now));
    }
    for (const TrendEvent& event : points.events)
        sentences << phrases("%1.").arg(event.words);
    return phrases.joined("%1 %2", sentences + points.remarks);
}

} // namespace charts
