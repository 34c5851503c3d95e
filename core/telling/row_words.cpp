#include "core/telling/row_words.h"

#include "core/telling/terms.h"

#include <QStringList>

#include <algorithm>

namespace telling
{

namespace
{

using base::Phrasebook;
using catalogue::Catalogue;
using catalogue::Threshold;

QString populationPart(const judging::Comparison& held, const Catalogue& catalogue, const Phrasebook& phrases)
{
    const Threshold& row = held.threshold->row;
    if (row.population == held.population)
        return phrases("of the patient's population");
    return phrases("of the nearest wider group (%1)")
        .arg(populationWords(row.population, catalogue, phrases));
}

QString daysPart(const Threshold& row, const Phrasebook& phrases)
{
    if (judging::isBetweenDays(row))
        return phrases("between days");
    return row.interval.isEmpty() ? phrases("interval not known") : phrases("within a session or a day");
}

QString optionWords(const QString& key, const catalogue::Condition* condition, const Phrasebook& phrases)
{
    if (condition == nullptr)
        return key;
    const auto option = std::ranges::find(condition->options, key, &catalogue::Option::key);
    return option == condition->options.end() ? key : phrases(option->title.toUtf8().constData()).toLower();
}

} // namespace

QString designWords(catalogue::Design design, const Phrasebook& phrases)
{
    switch (design) {
    case catalogue::Design::TestRetest:
        break;
    case catalogue::Design::BetweenRaters:
        return phrases("between raters");
    case catalogue::Design::InternalConsistency:
        return phrases("internal consistency");
    }
    return phrases("test–retest");
}

QString conditionWords(const Threshold& row, const Catalogue& catalogue, const Phrasebook& phrases)
{
    const qsizetype sign = row.condition.indexOf(u'=');
    if (sign < 0)
        return {};
    const QString id = row.condition.left(sign);
    const catalogue::Condition* condition = catalogue.condition(id);
    QString words;
    for (const QString& key : row.condition.mid(sign + 1).split(u'|')) {
        const QString option = optionWords(key, condition, phrases);
        words = words.isEmpty() ? option : phrases("%1 or %2").arg(words, option);
    }
    const QString title = condition == nullptr ? id : phrases(condition->title.toUtf8().constData());
    return phrases("%1: %2").arg(title.toLower(), words);
}

QString choiceWords(const judging::Comparison& comparison, const Phrasebook& phrases)
{
    if (!comparison.choice || !comparison.isChosen)
        return {};
    return phrases("chosen by %1 on %2 (“%3”)")
        .arg(comparison.choice->who, records::dayInWords(comparison.choice->chosenAt.date()),
             comparison.choice->reason);
}

QString whyThisRow(const judging::Comparison& comparison, const Catalogue& catalogue,
                   const Phrasebook& phrases)
{
    if (!comparison.threshold)
        return {};
    const Threshold& row = comparison.threshold->row;
    const QString people = conditionWords(row, catalogue, phrases);
    QStringList parts = {choiceWords(comparison, phrases),
                         populationPart(comparison, catalogue, phrases),
                         designWords(row.design, phrases),
                         daysPart(row, phrases),
                         row.checked == catalogue::Checked::Read ? phrases("read in the source")
                                                                 : phrases("from memory"),
                         people.isEmpty() ? QString() : phrases("for people with %1").arg(people),
                         row.n ? phrases("n %1").arg(*row.n) : phrases("number of people not given")};
    parts.removeAll(QString());
    return parts.join(QStringLiteral(", "));
}

QString whyNotUsed(const judging::NotUsed& notUsed, const Catalogue& catalogue, const Phrasebook& phrases)
{
    switch (notUsed.reason) {
    case judging::WhyNot::WiderPopulation:
        return phrases("of a wider group (%1)")
            .arg(populationWords(notUsed.row.population, catalogue, phrases));
    case judging::WhyNot::OtherDesign:
        return designWords(notUsed.row.design, phrases);
    case judging::WhyNot::WithinSession:
        return notUsed.row.interval.isEmpty() ? phrases("interval not known")
                                              : phrases("within a session or a day");
    case judging::WhyNot::FromMemory:
        return phrases("from memory");
    case judging::WhyNot::ForEverybody:
        return notUsed.row.condition.isEmpty()
                   ? phrases("of everybody, not of people under the recorded condition")
                   : phrases("of people under a condition that is not recorded here");
    case judging::WhyNot::OtherInterval:
        return notUsed.row.daysLow ? phrases("interval less like that between the visits")
                                   : phrases("interval in days not known");
    case judging::WhyNot::FewerPeople:
        return phrases("fewer people");
    case judging::WhyNot::LaterId:
        return phrases("equal in every respect of the rule");
    case judging::WhyNot::ChosenOtherwise:
        return phrases("the rule would come to it first, but another row was chosen for this patient");
    case judging::WhyNot::NoLimit:
        break;
    }
    return phrases("gives no threshold at these values");
}

} // namespace telling
