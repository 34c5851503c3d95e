#include "core/telling/declared_words.h"

#include "core/judging/declared.h"
#include "core/records/visit.h"
#include "core/telling/terms.h"

#include <QStringList>

#include <algorithm>

namespace telling
{

namespace
{

using records::DeclaredEqual;
using records::VisitId;

QString titles(const std::vector<judging::Mismatch>& missing, const catalogue::Catalogue& catalogue,
               const base::Phrasebook& phrases, bool isBefore, bool isNow)
{
    QStringList titles;
    for (const judging::Mismatch& mismatch : missing) {
        if (mismatch.before.isEmpty() != isBefore || mismatch.now.isEmpty() != isNow)
            continue;
        titles += conditionInSentence(mismatch.condition, catalogue);
    }
    return phrases.joined("%1, %2", titles);
}

QDate dayOf(const VisitId& series, const judging::Comparison& comparison,
            const std::vector<records::Visit>& visits)
{
    for (const records::Occasion* occasion : {&comparison.reference, &comparison.now}) {
        if (occasion->series == series)
            return occasion->day;
    }
    const auto visit = std::ranges::find(visits, series, &records::Visit::series);
    return visit == visits.end() ? QDate() : visit->day;
}

} // namespace

QString unrecordedWords(const std::vector<judging::Mismatch>& missing, const judging::Comparison& comparison,
                        const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases)
{
    QStringList sentences;
    const QString before = titles(missing, catalogue, phrases, true, false);
    if (!before.isEmpty())
        sentences += phrases("Not recorded on %1: %2.")
                         .arg(records::dayInWords(comparison.reference.day, phrases), before);
    const QString now = titles(missing, catalogue, phrases, false, true);
    if (!now.isEmpty())
        sentences +=
            phrases("Not recorded on %1: %2.").arg(records::dayInWords(comparison.now.day, phrases), now);
    const QString neither = titles(missing, catalogue, phrases, true, true);
    if (!neither.isEmpty())
        sentences += phrases("Not recorded at either visit: %1.").arg(neither);
    return phrases.joined("%1 %2", sentences);
}

QString declaredWords(const judging::Comparison& comparison, const records::Patient& patient,
                      const std::vector<records::Visit>& visits, const catalogue::Catalogue& catalogue,
                      const base::Phrasebook& phrases)
{
    QStringList sentences;
    for (const DeclaredEqual& word : judging::declarations(comparison, patient, catalogue)) {
        const QDate earlier = dayOf(word.earlier, comparison, visits);
        const QDate later = dayOf(word.later, comparison, visits);
        if (earlier.isValid() && later.isValid())
            sentences +=
                phrases("Declared the same on %1 and %2 by %3 on %4: “%5”.")
                    .arg(records::dayInWords(earlier, phrases), records::dayInWords(later, phrases), word.who,
                         records::dayInWords(word.declaredAt.date(), phrases), word.reason);
    }
    if (sentences.isEmpty())
        return {};
    std::vector<judging::Mismatch> missing = judging::unrecorded(comparison, catalogue);
    std::erase_if(missing, [&](const judging::Mismatch& each) {
        return std::ranges::find(comparison.comparability.cautions, each) !=
               comparison.comparability.cautions.end();
    });
    sentences.prepend(unrecordedWords(missing, comparison, catalogue, phrases));
    return phrases.joined("%1 %2", sentences);
}

} // namespace telling
