#include "app/charts/trend_words.h"

#include "core/interpretation/wording.h"

using namespace Qt::StringLiterals;

namespace charts
{

QString latestWords(const TrendLine& line, const base::Phrasebook& phrases)
{
    const TrendEntry* latest = line.latest();
    if (latest == nullptr)
        return phrases("no value yet");
    QString words = phrases("%1 on %2").arg(latest->words, records::dayInWords(latest->day));
    if (const TrendEntry* previous = line.previous())
        words =
            phrases("%1; previous %2 on %3").arg(words, previous->words, records::dayInWords(previous->day));
    const TrendEntry* reference = line.reference();
    if (latest->verdict && latest->verdict != interpretation::Verdict::NoThreshold && reference != nullptr)
        words = phrases("%1; %2 against %3")
                    .arg(words, interpretation::written(*latest->verdict, phrases),
                         records::dayInWords(reference->day));
    return words;
}

QString spoken(const TrendPoints& points, const base::Phrasebook& phrases)
{
    QStringList sentences;
    for (const TrendLine& line : points.lines) {
        const QString latest = latestWords(line, phrases);
        sentences << (line.name.isEmpty() ? latest : phrases("%1: %2").arg(line.name, latest)) + u'.';
    }
    for (const TrendEvent& event : points.events)
        sentences << event.words + u'.';
    return (sentences + points.remarks).join(u' ');
}

} // namespace charts
