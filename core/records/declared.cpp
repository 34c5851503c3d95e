#include "core/records/declared.h"

#include "core/catalogue/catalogue.h"

#include <algorithm>

namespace records
{

namespace
{

using Pair = std::pair<Occasion*, Occasion*>;

QString known(const Occasion& occasion, const QString& condition)
{
    const QString written = recorded(occasion.conditions, condition).trimmed();
    return written.isEmpty() ? recorded(occasion.declared, condition) : written;
}

/// Whether one of the two learned from the other.
bool share(const Pair& pair, const QString& condition)
{
    const QString first = known(*pair.first, condition);
    const QString second = known(*pair.second, condition);
    if (first.isEmpty() == second.isEmpty())
        return false;
    (first.isEmpty() ? pair.first : pair.second)->declared[condition] = first.isEmpty() ? second : first;
    return true;
}

void spread(const std::vector<Pair>& pairs, const QString& condition)
{
    bool isSpreading = true;
    while (isSpreading) {
        isSpreading = false;
        for (const Pair& pair : pairs)
            isSpreading = share(pair, condition) || isSpreading;
    }
}

bool isOf(const DeclaredEqual& word, const QString& measure, const VisitId& series, const VisitId& other)
{
    return word.measure == measure && ((word.earlier == series && word.later == other) ||
                                       (word.earlier == other && word.later == series));
}

} // namespace

bool isDeclaredEqual(const std::vector<DeclaredEqual>& declared, const QString& measure,
                     const VisitId& series, const VisitId& otherSeries)
{
    const auto newest = std::find_if(declared.rbegin(), declared.rend(), [&](const DeclaredEqual& word) {
        return isOf(word, measure, series, otherSeries);
    });
    return newest != declared.rend() && !newest->isTakenBack;
}

void layDeclared(std::vector<Occasion>& occasions, const catalogue::Measure& measure,
                 const std::vector<DeclaredEqual>& declared)
{
    std::vector<Pair> pairs;
    for (const DeclaredEqual& word : declared) {
        const auto earlier = std::ranges::find(occasions, word.earlier, &Occasion::series);
        const auto later = std::ranges::find(occasions, word.later, &Occasion::series);
        if (earlier != occasions.end() && later != occasions.end() &&
            isDeclaredEqual(declared, measure.id, word.earlier, word.later))
            pairs.emplace_back(&*earlier, &*later);
    }
    for (const catalogue::ConditionRule& rule : measure.conditions) {
        spread(pairs, rule.condition);
        if (rule.strictness != catalogue::Strictness::Hard)
            continue; // recorded at neither visit, it keeps nothing apart
        for (const Pair& pair : pairs) {
            if (known(*pair.first, rule.condition).isEmpty()) {
                pair.first->declared[rule.condition] = pair.first->series.text;
                spread(pairs, rule.condition);
            }
        }
    }
}

} // namespace records
