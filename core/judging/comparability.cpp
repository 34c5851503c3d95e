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

bool isSameNumber(const QString& before, const QString& now)
{
    bool isNumberBefore = false;
    bool isNumberNow = false;
    const double a = before.toDouble(&isNumberBefore);
    const double b = now.toDouble(&isNumberNow);
    return isNumberBefore && isNumberNow && !values::exceeds(a, b) && !values::exceeds(b, a);
}

/// An option's key, whether the key or the title was recorded.
QString keyOf(const QString& recorded, const catalogue::Condition* condition)
{
    if (condition == nullptr)
        return recorded;
    const auto named = [&](const catalogue::Option& option) {
        return base::folded(option.title) == base::folded(recorded);
    };
    const auto option = std::ranges::find_if(condition->options, named);
    return option == condition->options.end() ? recorded : option->key;
}

bool isSame(const QString& before, const QString& now)
{
    return before == now || isSameNumber(before, now) ||
           (!base::folded(before).isEmpty() && base::folded(before) == base::folded(now));
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
    for (const catalogue::ConditionRule& rule : measure.conditions) {
        const Mismatch mismatch{rule.condition,
                                records::recorded(before.conditions, rule.condition).trimmed(),
                                records::recorded(now.conditions, rule.condition).trimmed()};
        const catalogue::Condition* condition = catalogue.condition(rule.condition);
        const Mismatch counts{rule.condition, counted(mismatch.before, before, rule.condition),
                              counted(mismatch.now, now, rule.condition)};
        const bool isWordForWord = counts.before == counts.now;
        if (!counts.isMissing() &&
            (isWordForWord || isSame(keyOf(counts.before, condition), keyOf(counts.now, condition)))) {
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

} // namespace judging
