#include "core/telling/visit_words.h"

#include "core/judging/comparability.h"
#include "core/records/patient.h"
#include "core/telling/condition_words.h"

#include <algorithm>

namespace telling
{

QStringList circumstances(const records::Visit& now, const records::Visit* before, const QString& population,
                          const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases)
{
    const auto differing = before != nullptr ? judging::differing(*before, now, population, catalogue)
                                             : std::vector<judging::Mismatch>();
    QStringList told;
    for (const catalogue::Condition& condition : catalogue.conditions) {
        const QString recorded = records::recorded(now.conditions, condition.id);
        const QString words = conditionValue(recorded, &condition, phrases);
        const auto mismatch = std::ranges::find(differing, condition.id, &judging::Mismatch::condition);
        if (mismatch != differing.end())
            told += phrases("%1: %2 (at %3: %4)")
                        .arg(condition.title, words, records::dayInWords(before->day, phrases),
                             conditionValue(mismatch->before, &condition, phrases));
        else if (recorded == QLatin1String("on") || recorded == QLatin1String("off") ||
                 (condition.isTold && !recorded.isEmpty()))
            told += phrases("%1: %2").arg(condition.title, words);
    }
    return told;
}

} // namespace telling
