#include "core/telling/condition_words.h"

namespace telling
{

QString titleInSentence(const QString& title)
{
    const bool isAbbreviation = title.size() > 1 && title.at(1).isUpper();
    return isAbbreviation || title.isEmpty() ? title : title.at(0).toLower() + title.mid(1);
}

QString conditionTitle(const QString& id, const catalogue::Catalogue& catalogue,
                       const base::Phrasebook& phrases)
{
    const catalogue::Condition* condition = catalogue.condition(id);
    return condition == nullptr ? id : titleInSentence(phrases(condition->title.toUtf8().constData()));
}

QString conditionValue(const QString& recorded, const catalogue::Condition* condition,
                       const base::Phrasebook& phrases)
{
    if (recorded.isEmpty())
        return phrases("not recorded");
    if (condition == nullptr)
        return recorded;
    if (const catalogue::Option* option = optionOf(condition->options, recorded))
        return phrases(option->title.toUtf8().constData());
    const QString symbol = values::symbol(condition->unit);
    return condition->isNumber && !symbol.isEmpty() ? recorded + u' ' + symbol : recorded;
}

QString conditionValueInSentence(const QString& recorded, const catalogue::Condition* condition,
                                 const base::Phrasebook& phrases)
{
    const bool isOption = condition != nullptr && optionOf(condition->options, recorded) != nullptr;
    const QString words = conditionValue(recorded, condition, phrases);
    return isOption ? titleInSentence(words) : words;
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
    return phrases("%1: %2").arg(conditionTitle(requirement.condition, catalogue, phrases), words);
}

} // namespace telling
