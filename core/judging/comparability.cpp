#include "core/judging/comparability.h"

#include "core/base/text.h"
#include "core/values/quantity.h"

#include <algorithm>

namespace judging
{

namespace
{

using catalogue::Strictness;

Strictness strictnessFor(const catalogue::ConditionRule& rule, const catalogue::Catalogue& catalogue,
                         const QString& population)
{
    const bool holds = rule.onlyFor.isEmpty() || catalogue.isWithin(population, rule.onlyFor);
    return holds ? rule.strictness : Strictness::Soft;
}

/// An option's key, whether the key or the title was recorded.
QString keyOf(const QString& recorded, const catalogue::Condition& condition)
{
    const QString words = base::folded(recorded);
    const auto option = std::ranges::find_if(
        condition.options, [&](const catalogue::Option& one) { return base::folded(one.title) == words; });
    return option == condition.options.end() ? recorded : option->key;
}

bool isSame(const QString& before, const QString& now)
{
    bool isNumberBefore = false;
    bool isNumberNow = false;
    const double a = before.toDouble(&isNumberBefore);
    const double b = now.toDouble(&isNumberNow);
    if (isNumberBefore && isNumberNow)
        return !values::exceeds(a, b) && !values::exceeds(b, a);
    const QString words = base::folded(before);
    return before == now || (!words.isEmpty() && words == base::folded(now));
}

/// Whether two recorded values of a condition say the same. Most are keys, which only look alike: then
/// nothing has to be spelled out.
bool isSame(const QString& before, const QString& now, const catalogue::Condition* condition)
{
    if (before == now)
        return true;
    if (condition == nullptr)
        return isSame(before, now);
    const bool areKeys = catalogue::optionOf(condition->options, before) != nullptr &&
                         catalogue::optionOf(condition->options, now) != nullptr;
    return !areKeys && isSame(keyOf(before, *condition), keyOf(now, *condition));
}

/// What was recorded, else what it was declared to count as.
QString counted(const QString& recorded, const records::Occasion& occasion, const QString& condition)
{
    return recorded.isEmpty() ? records::recorded(occasion.declared, condition) : recorded;
}

} // namespace

Comparability comparability(const catalogue::Measure& measure, const catalogue::Catalogue& catalogue,
                            const QString& population, const records::Occasion& before,
                            const records::Occasion& now)
{
    Comparability found;
    const bool areOneSet = before.conditions == now.conditions;
    const bool isNoneDeclared = before.declared.isEmpty() && now.declared.isEmpty();
    for (const catalogue::ConditionRule& rule : measure.conditions) {
        const bool isSilent = rule.strictness == Strictness::Soft && isNoneDeclared;
        if (areOneSet && isSilent)
            continue;
        const QString recordedBefore = records::recorded(before.conditions, rule.condition).trimmed();
        const QString recordedNow =
            areOneSet ? recordedBefore : records::recorded(now.conditions, rule.condition).trimmed();
        if (recordedBefore == recordedNow && (isSilent || !recordedBefore.isEmpty()))
            continue;
        const Mismatch mismatch{rule.condition, recordedBefore, recordedNow};
        const catalogue::Condition* condition = catalogue.condition(rule.condition);
        const Mismatch counts{rule.condition, counted(mismatch.before, before, rule.condition),
                              counted(mismatch.now, now, rule.condition)};
        if (!counts.isMissing() && isSame(counts.before, counts.now, condition)) {
            if (mismatch.isMissing())
                found.declared.push_back(mismatch);
            continue;
        }
        const Strictness strictness = strictnessFor(rule, catalogue, population);
        const bool isUnknown = mismatch.before.isEmpty() && mismatch.now.isEmpty();
        const bool blocksWhenKnown =
            strictness == Strictness::IfRecorded || strictness == Strictness::IfEither;
        if (strictness == Strictness::Hard || (blocksWhenKnown && !counts.isMissing()))
            found.blocking.push_back(mismatch);
        else if (strictness == Strictness::IfRecorded || !isUnknown)
            found.cautions.push_back(mismatch);
    }
    return found;
}

std::vector<Mismatch> differing(const records::Visit& before, const records::Visit& now,
                                const QString& population, const catalogue::Catalogue& catalogue)
{
    const auto decides = [&](const catalogue::Condition& condition) {
        return std::ranges::any_of(now.findings, [&](const records::Finding& finding) {
            const catalogue::Measure* measure = catalogue.measure(finding.measure);
            return measure != nullptr &&
                   std::ranges::any_of(measure->conditions, [&](const catalogue::ConditionRule& rule) {
                       return rule.condition == condition.id &&
                              strictnessFor(rule, catalogue, population) != Strictness::Soft;
                   });
        });
    };
    std::vector<Mismatch> found;
    for (const catalogue::Condition& condition : catalogue.conditions) {
        const Mismatch mismatch{condition.id, records::recorded(before.conditions, condition.id).trimmed(),
                                records::recorded(now.conditions, condition.id).trimmed()};
        if (!mismatch.isMissing() && !isSame(mismatch.before, mismatch.now, &condition) && decides(condition))
            found.push_back(mismatch);
    }
    return found;
}

} // namespace judging
