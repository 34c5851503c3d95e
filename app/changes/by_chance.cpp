#include "app/changes/by_chance.h"

#include "core/base/rounding.h"
#include "core/statistics/multiplicity.h"
#include "core/telling/course_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace changes
{

QString expectedByChance(const judging::Glance& glance)
{
    const auto judged = std::ranges::count_if(
        glance.outcomes, [](const judging::Outcome& each) { return each.chance.has_value(); });
    if (judged < 2)
        return {};
    const double expected = statistics::expectedFalseFlags(int(judged), judging::judgedAt);
    return QCoreApplication::translate("changes::ByChance", "Expected by chance: about %1 of %2 judged")
        .arg(base::fixed(expected, expected < 1 ? 2 : 1))
        .arg(judged);
}

QString expectedInPlan(const judging::Glance& glance, const records::Judging& judging,
                       const base::Phrasebook& phrases)
{
    int courses = 0;
    for (const judging::Change& change : glance.changes)
        courses += judging::coursesWatched(change);
    return telling::familyWords(courses, judging, phrases);
}

} // namespace changes
