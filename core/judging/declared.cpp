#include "core/judging/declared.h"

#include "core/records/declared.h"

#include <algorithm>
#include <set>

namespace judging
{

namespace
{

using records::DeclaredEqual;
using records::VisitId;

bool stands(const DeclaredEqual& word, const records::Patient& patient)
{
    return !word.isTakenBack &&
           records::isDeclaredEqual(patient.declared, word.measure, word.earlier, word.later);
}

bool isAbout(const DeclaredEqual& word, const VisitId& one, const VisitId& other)
{
    return (word.earlier == one && word.later == other) || (word.earlier == other && word.later == one);
}

/// The newest standing word of the measure about each pair of visits, oldest first.
std::vector<DeclaredEqual> standing(const QString& measure, const records::Patient& patient)
{
    std::vector<DeclaredEqual> words;
    for (const DeclaredEqual& word : patient.declared) {
        if (word.measure != measure || !stands(word, patient))
            continue;
        std::erase_if(words,
                      [&](const DeclaredEqual& old) { return isAbout(old, word.earlier, word.later); });
        words.push_back(word);
    }
    return words;
}

/// The words that lead from these visits to others, and on from there.
std::vector<DeclaredEqual> reaching(std::set<QString> visits, const std::vector<DeclaredEqual>& words)
{
    bool isGrowing = true;
    while (isGrowing) {
        isGrowing = false;
        for (const DeclaredEqual& word : words) {
            if (visits.contains(word.earlier.text) != visits.contains(word.later.text)) {
                visits.insert({word.earlier.text, word.later.text});
                isGrowing = true;
            }
        }
    }
    std::vector<DeclaredEqual> reached;
    std::ranges::copy_if(words, std::back_inserter(reached),
                         [&](const DeclaredEqual& word) { return visits.contains(word.earlier.text); });
    return reached;
}

/// What would keep the two apart if nobody had given a word.
Comparability withoutWords(const Comparison& comparison, const catalogue::Catalogue& catalogue)
{
    records::Occasion before = comparison.reference;
    records::Occasion now = comparison.now;
    before.declared.clear();
    now.declared.clear();
    const catalogue::Measure* measure = catalogue.measure(comparison.measure);
    return measure == nullptr ? Comparability()
                              : comparability(*measure, catalogue, comparison.population, before, now);
}

/// The sides of the comparison on which something was filled in by a word.
std::set<QString> filledIn(const Comparison& comparison)
{
    std::set<QString> visits;
    for (const Mismatch& mismatch : comparison.comparability.declared) {
        if (mismatch.before.isEmpty())
            visits.insert(comparison.reference.series.text);
        if (mismatch.now.isEmpty())
            visits.insert(comparison.now.series.text);
    }
    return visits;
}

/// What a condition counts as without having been recorded; empty where that is only "the same as there".
QString countedAs(const records::Occasion& occasion, const QString& condition,
                  const records::Patient& patient)
{
    const QString counted = records::recorded(occasion.declared, condition);
    const bool isOnlyTheSame = std::ranges::any_of(patient.declared, [&](const DeclaredEqual& word) {
        return word.earlier.text == counted || word.later.text == counted;
    });
    return isOnlyTheSame ? QString() : counted;
}

} // namespace

std::vector<Mismatch> unrecorded(const Comparison& comparison, const catalogue::Catalogue& catalogue)
{
    const Comparability found = withoutWords(comparison, catalogue);
    std::vector<Mismatch> missing;
    std::ranges::copy_if(found.blocking, std::back_inserter(missing), &Mismatch::isMissing);
    std::ranges::copy_if(found.cautions, std::back_inserter(missing), &Mismatch::isMissing);
    return missing;
}

bool mayBeDeclaredEqual(const Comparison& comparison, const records::Patient& patient)
{
    const records::Occasion& before = comparison.reference;
    const records::Occasion& now = comparison.now;
    const auto isOpen = [&](const Mismatch& mismatch) {
        const QString counted =
            mismatch.before.isEmpty() ? countedAs(before, mismatch.condition, patient) : mismatch.before;
        const QString countedNow =
            mismatch.now.isEmpty() ? countedAs(now, mismatch.condition, patient) : mismatch.now;
        return mismatch.isMissing() && (counted.isEmpty() || countedNow.isEmpty());
    };
    return !comparison.comparability.isComparable() &&
           std::ranges::all_of(comparison.comparability.blocking, isOpen) &&
           !records::isDeclaredEqual(patient.declared, comparison.measure, before.series, now.series);
}

std::vector<DeclaredEqual> declarations(const Comparison& comparison, const records::Patient& patient,
                                        const catalogue::Catalogue& catalogue)
{
    if (std::ranges::none_of(withoutWords(comparison, catalogue).blocking, &Mismatch::isMissing))
        return {};
    const std::vector<DeclaredEqual> words = standing(comparison.measure, patient);
    for (const DeclaredEqual& word : words) {
        if (isAbout(word, comparison.reference.series, comparison.now.series))
            return {word};
    }
    return reaching(filledIn(comparison), words);
}

} // namespace judging
