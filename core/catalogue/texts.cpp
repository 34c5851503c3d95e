#include "core/catalogue/texts.h"

namespace catalogue
{

namespace
{

using Take = std::function<void(QString&)>;

const QString partsOfTitle = QStringLiteral(", ");

void eachOf(std::vector<Option>& options, const Take& take)
{
    for (Option& option : options) {
        option.titleWithin = withinSentence(option);
        option.titleInShort = inShort(option);
        for (QString* text : {&option.title, &option.titleWithin, &option.titleInShort})
            take(*text);
    }
}

void eachOf(Measure& measure, const Take& take)
{
    for (QString* text :
         {&measure.title, &measure.alsoCalled, &measure.purpose, &measure.plainly, &measure.how,
          &measure.position, &measure.equipment, &measure.unableMeans, &measure.caution, &measure.agreement})
        take(*text);
    eachOf(measure.options, take);
    eachOf(measure.watchFor, take);
    if (measure.practice)
        take(measure.practice->words);
}

void eachOf(Threshold& row, const Take& take)
{
    for (QString* text : {&row.populationWords, &row.interval, &row.protocol, &row.note})
        take(*text);
}

template <class Row>
void eachOf(Row& row, const Take& take)
{
    for (QString* text : {&row.whom.populationWords, &row.whom.protocol, &row.origin.note})
        take(*text);
}

} // namespace

QString withinSentence(const QString& english)
{
    const bool isAbbreviation = english.size() > 1 && english.at(1).isUpper();
    return isAbbreviation || english.isEmpty() ? english : english.at(0).toLower() + english.mid(1);
}

QString withinSentence(const Option& option)
{
    return option.titleWithin.isEmpty() ? withinSentence(option.title) : option.titleWithin;
}

QString withinSentence(const Condition& condition)
{
    return condition.titleWithin.isEmpty() ? withinSentence(condition.title) : condition.titleWithin;
}

QString inShort(const Option& option)
{
    return option.titleInShort.isEmpty() ? option.title.section(partsOfTitle, 0, 0) : option.titleInShort;
}

void eachText(Catalogue& catalogue, const Take& take)
{
    for (Section& section : catalogue.sections)
        take(section.title);
    for (Measure& measure : catalogue.measures) {
        if (!measure.isOwn)
            eachOf(measure, take);
    }
    for (Condition& condition : catalogue.conditions) {
        condition.titleWithin = withinSentence(condition);
        take(condition.title);
        take(condition.titleWithin);
        eachOf(condition.options, take);
    }
    for (Population& population : catalogue.populations)
        take(population.title);
    for (Threshold& row : catalogue.thresholds) {
        if (!row.isOwn)
            eachOf(row, take);
    }
    for (Norm& row : catalogue.norms) {
        eachOf(row, take);
        take(row.rangeWords);
    }
    for (Equation& row : catalogue.equations)
        eachOf(row, take);
    for (Band& row : catalogue.bands) {
        eachOf(row, take);
        take(row.words);
    }
    for (RedFlag& flag : catalogue.redFlags) {
        for (QString* text : {&flag.group, &flag.question, &flag.inShort, &flag.urgency})
            take(*text);
    }
    for (Pattern& pattern : catalogue.patterns) {
        if (pattern.isOwn)
            continue;
        take(pattern.title);
        take(pattern.note);
    }
    for (Form& form : catalogue.forms) {
        if (form.isOwn)
            continue;
        take(form.title);
        for (FormSection& section : form.sections)
            take(section.title);
    }
}

Catalogue inLanguage(Catalogue catalogue, const base::Phrasebook& phrases)
{
    eachText(catalogue, [&phrases](QString& text) { text = phrases(text); });
    return catalogue;
}

} // namespace catalogue
