#include "core/telling/condition_words.h"

#include "core/catalogue/texts.h"

namespace telling
{

QString conditionInSentence(const QString& id, const catalogue::Catalogue& catalogue)
{
    const catalogue::Condition* condition = catalogue.condition(id);
    return condition == nullptr ? id : catalogue::withinSentence(*condition);
}

QString conditionValue(const QString& recorded, const catalogue::Condition* condition,
                       const base::Phrasebook& phrases)
{
    if (recorded.isEmpty())
        return phrases("not recorded");
    if (condition == nullptr)
        return recorded;
    if (const catalogue::Option* option = optionOf(condition->options, recorded))
        return option->title;
    return condition->isNumber ? values::withUnit(recorded, condition->unit, phrases) : recorded;
}

QString conditionValueInSentence(const QString& recorded, const catalogue::Condition* condition,
                                 const base::Phrasebook& phrases)
{
    const catalogue::Option* option = condition == nullptr ? nullptr : optionOf(condition->options, recorded);
    return option == nullptr ? conditionValue(recorded, condition, phrases)
                             : catalogue::withinSentence(*option);
}

QString requirementWords(const catalogue::Requirement& requirement, const catalogue::Catalogue& catalogue,
                         const base::Phrasebook& phrases)
{
    const catalogue::Condition* condition = catalogue.condition(requirement.condition);
    QString words;
    for (const QString& value : requirement.values) {
        const QString allowed = conditionValueInSentence(value, condition, phrases);
        words = words.isEmpty() ? allowed : phrases("%1 or %2").arg(words, allowed);
    }
    return phrases("%1: %2").arg(conditionInSentence(requirement.condition, catalogue), words);
}

} // namespace telling
