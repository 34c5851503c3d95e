#include "app/patients/look_alikes.h"

#include "core/base/text.h"

#include <algorithm>
#include <cstdlib>

namespace patients
{

namespace
{

/// Letters to insert, remove or replace (Levenshtein 1966).
qsizetype editDistance(const QString& from, const QString& to)
{
    std::vector<qsizetype> row(static_cast<size_t>(to.size()) + 1);
    for (size_t i = 0; i < row.size(); ++i)
        row[i] = static_cast<qsizetype>(i);
    for (qsizetype i = 0; i < from.size(); ++i) {
        qsizetype diagonal = row[0];
        row[0] = i + 1;
        for (qsizetype j = 0; j < to.size(); ++j) {
            const auto place = static_cast<size_t>(j);
            const qsizetype replaced = diagonal + (from[i] == to[j] ? 0 : 1);
            diagonal = row[place + 1];
            row[place + 1] = std::min({row[place] + 1, diagonal + 1, replaced});
        }
    }
    return row.back();
}

bool isNear(const QString& one, const QString& other)
{
    if (one.isEmpty() || other.isEmpty())
        return false;
    const qsizetype allowed = std::min(one.size(), other.size()) < 8 ? 1 : 2;
    return std::abs(one.size() - other.size()) <= allowed && editDistance(one, other) <= allowed;
}

} // namespace

bool isSimilarName(const QString& family, const QString& given, const QString& otherFamily,
                   const QString& otherGiven)
{
    const QString name = base::folded(family + u' ' + given);
    return isNear(name, base::folded(otherFamily + u' ' + otherGiven)) ||
           isNear(name, base::folded(otherGiven + u' ' + otherFamily));
}

std::vector<LookAlike> lookAlikes(const records::Patient& candidate,
                                  const std::vector<records::PatientSummary>& onRecord)
{
    std::vector<LookAlike> found;
    for (const records::PatientSummary& other : onRecord) {
        const LookAlike pair{other,
                             isSimilarName(candidate.family, candidate.given, other.family, other.given),
                             candidate.born && candidate.born == other.born};
        if (other.id != candidate.id && (pair.hasSimilarName || pair.hasSameBirthDate))
            found.push_back(pair);
    }
    std::ranges::stable_sort(found, std::ranges::greater(), [](const LookAlike& pair) {
        return pair.hasSimilarName + pair.hasSameBirthDate;
    });
    return found;
}

} // namespace patients
