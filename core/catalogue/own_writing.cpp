#include "core/catalogue/entries.h"
#include "core/catalogue/own.h"
#include "core/catalogue/own_format.h"

#include <QJsonArray>
#include <QJsonDocument>

using namespace Qt::StringLiterals;

namespace catalogue
{

namespace
{

void put(QJsonObject& object, const QString& key, const QString& words)
{
    if (!words.isEmpty())
        object[key] = words;
}

void put(QJsonObject& object, const QString& key, std::optional<double> number)
{
    if (number)
        object[key] = *number;
}

void put(QJsonObject& object, const QString& key, const QStringList& words)
{
    if (!words.isEmpty())
        object[key] = QJsonArray::fromStringList(words);
}

void putFlag(QJsonObject& object, const QString& key, bool isSet)
{
    if (isSet)
        object[key] = true;
}

template <class Row>
QJsonArray listOf(const std::vector<Row>& rows, QJsonObject (*objectOf)(const Row&))
{
    QJsonArray list;
    for (const Row& row : rows)
        list += objectOf(row);
    return list;
}

QJsonObject sourceObject(const Source& source)
{
    QJsonObject object{
        {u"id"_s, source.id}, {u"reference"_s, source.reference}, {u"shortForm"_s, source.shortForm}};
    put(object, u"doi"_s, source.doi);
    return object;
}

/// A grade names its steps, a choice its options.
void putWords(QJsonObject& object, const Measure& measure)
{
    if (measure.options.empty())
        return;
    QJsonArray list;
    for (const Option& option : measure.options) {
        if (measure.kind == Kind::Grade)
            list += option.title;
        else
            list += QJsonObject{{u"key"_s, option.key}, {u"title"_s, option.title}};
    }
    object[measure.kind == Kind::Grade ? u"steps"_s : u"options"_s] = list;
}

void putRules(QJsonObject& object, const std::vector<ConditionRule>& rules)
{
    QJsonObject conditions, hardFor;
    for (const ConditionRule& rule : rules) {
        QJsonObject& group = rule.onlyFor.isEmpty() ? conditions : hardFor;
        const QString key = rule.onlyFor.isEmpty() ? word(rule.strictness) : rule.onlyFor;
        QJsonArray ids = group[key].toArray();
        ids += rule.condition;
        group[key] = ids;
    }
    if (!hardFor.isEmpty())
        conditions[u"hardFor"_s] = hardFor;
    if (!conditions.isEmpty())
        object[u"conditions"_s] = conditions;
}

void putSigns(QJsonObject& object, const std::vector<Option>& signs)
{
    QJsonArray list;
    for (const Option& sign : signs)
        list += sign.key;
    if (!list.isEmpty())
        object[u"watchFor"_s] = list;
}

QJsonObject measureObject(const Measure& measure)
{
    QJsonObject object{{u"id"_s, measure.id},           {u"title"_s, measure.title},
                       {u"section"_s, measure.section}, {u"sides"_s, measure.hasSides},
                       {u"kind"_s, word(measure.kind)}, {u"rule"_s, word(measure.rule)},
                       {u"trials"_s, measure.trials}};
    put(object, u"shortForm"_s, measure.shortForm);
    put(object, u"unit"_s, values::code(measure.unit));
    if (measure.kind != Kind::Choice || measure.better != Direction::Neither)
        object[u"better"_s] = word(measure.better);
    put(object, u"lowest"_s, measure.lowest);
    put(object, u"highest"_s, measure.highest);
    put(object, u"step"_s, measure.step);
    putWords(object, measure);
    put(object, u"cap"_s, measure.cap);
    putSigns(object, measure.watchFor);
    put(object, u"purpose"_s, measure.purpose);
    put(object, u"alsoCalled"_s, measure.alsoCalled);
    put(object, u"plainly"_s, measure.plainly);
    put(object, u"how"_s, measure.how);
    put(object, u"position"_s, measure.position);
    put(object, u"equipment"_s, measure.equipment);
    put(object, u"unableMeans"_s, measure.unableMeans);
    put(object, u"caution"_s, measure.caution);
    put(object, u"agreement"_s, measure.agreement);
    putRules(object, measure.conditions);
    if (measure.computed)
        object[u"computed"_s] =
            QJsonObject{{u"rule"_s, word(measure.computed->rule)},
                        {u"parts"_s, QJsonArray::fromStringList(measure.computed->parts)}};
    if (measure.following)
        object[u"follows"_s] = QJsonObject{{u"hold"_s, measure.following->hold},
                                           {u"steadyFrom"_s, measure.following->steadyFrom},
                                           {u"choice"_s, measure.following->choice}};
    put(object, u"partOf"_s, measure.partOf);
    putFlag(object, u"licensedWording"_s, measure.hasLicensedWording);
    putFlag(object, u"tapped"_s, measure.isTapped);
    putFlag(object, u"stepped"_s, measure.isStepped);
    put(object, u"missteps"_s, measure.missteps);
    putFlag(object, u"events"_s, measure.countsEvents);
    putFlag(object, u"retired"_s, measure.retired);
    return object;
}

QJsonObject thresholdObject(const Threshold& row)
{
    QJsonObject object{{u"id"_s, row.id},
                       {u"measure"_s, row.measure},
                       {u"population"_s, row.population},
                       {u"populationWords"_s, row.populationWords},
                       {u"answers"_s, word(row.answers)},
                       {u"scale"_s, word(row.scale)},
                       {u"improvement"_s, row.improvement},
                       {u"decline"_s, row.decline},
                       {u"design"_s, word(row.design)},
                       {u"source"_s, row.source},
                       {u"checked"_s, word(row.checked)}};
    put(object, u"confidence"_s, row.confidence);
    put(object, u"confidenceBasis"_s, row.basis ? word(*row.basis) : QString());
    put(object, u"bandOf"_s, row.bandOf);
    put(object, u"bandLow"_s, row.bandLow);
    put(object, u"bandHigh"_s, row.bandHigh);
    put(object, u"bandHighIncluded"_s, row.bandHighIncluded ? u"yes"_s : QString());
    put(object, u"sem"_s, row.sem);
    put(object, u"icc"_s, row.icc);
    put(object, u"n"_s, row.n ? std::optional<double>(*row.n) : std::nullopt);
    put(object, u"repeats"_s, word(row.repeats));
    put(object, u"interval"_s, row.interval);
    put(object, u"daysLow"_s, row.daysLow);
    put(object, u"daysHigh"_s, row.daysHigh);
    put(object, u"rule"_s, row.rule ? word(*row.rule) : QString());
    put(object, u"trials"_s, row.trials ? std::optional<double>(*row.trials) : std::nullopt);
    put(object, u"protocol"_s, row.protocol);
    put(object, u"hand"_s, row.hand);
    put(object, u"condition"_s, written(row.condition));
    put(object, u"note"_s, row.note);
    return object;
}

QJsonObject formObject(const Form& form)
{
    QJsonArray sections;
    for (const FormSection& section : form.sections)
        sections += QJsonObject{{u"title"_s, section.title},
                                {u"measures"_s, QJsonArray::fromStringList(section.measures)}};
    QJsonObject object{{u"id"_s, form.id}, {u"title"_s, form.title}, {u"sections"_s, sections}};
    put(object, u"expected"_s, form.expected);
    return object;
}

QJsonObject lookObject(const Look& look)
{
    QJsonObject object{{u"measure"_s, look.measure}};
    put(object, u"options"_s, look.options);
    put(object, u"from"_s, look.from);
    put(object, u"to"_s, look.to);
    put(object, u"signs"_s, look.signs);
    return object;
}

QJsonObject ruleObject(const PatternRule& rule)
{
    QJsonObject object = lookObject(rule.looks.front());
    QJsonArray with;
    for (size_t look = 1; look < rule.looks.size(); ++look)
        with += lookObject(rule.looks[look]);
    if (!with.isEmpty())
        object[u"with"_s] = with;
    put(object, u"source"_s, rule.source);
    object[u"checked"_s] = word(rule.checked);
    return object;
}

QJsonObject patternObject(const Pattern& pattern)
{
    QJsonObject object{{u"id"_s, pattern.id},
                       {u"title"_s, pattern.title},
                       {u"supports"_s, listOf(pattern.supports, ruleObject)}};
    put(object, u"needs"_s, pattern.needs);
    if (!pattern.contradicts.empty())
        object[u"contradicts"_s] = listOf(pattern.contradicts, ruleObject);
    put(object, u"note"_s, pattern.note);
    put(object, u"replaces"_s, pattern.replaces);
    return object;
}

} // namespace

QByteArray written(const Own& own)
{
    const QJsonObject object{{u"format"_s, ownFormat},
                             {u"sources"_s, listOf(own.sources, sourceObject)},
                             {u"measures"_s, listOf(own.measures, measureObject)},
                             {u"thresholds"_s, listOf(own.thresholds, thresholdObject)},
                             {u"forms"_s, listOf(own.forms, formObject)},
                             {u"patterns"_s, listOf(own.patterns, patternObject)}};
    return QJsonDocument(object).toJson(QJsonDocument::Indented);
}

QString written(const Form& form)
{
    QJsonObject object = formObject(form);
    putFlag(object, u"own"_s, form.isOwn);
    return QString::fromUtf8(QJsonDocument(object).toJson(QJsonDocument::Compact));
}

std::optional<Form> formFrom(const QString& written)
{
    Fields fields(QJsonDocument::fromJson(written.toUtf8()).object(), {});
    Form form = formFrom(fields);
    form.isOwn = fields.optionalFlag(u"own"_s);
    return fields.error() ? std::nullopt : std::optional(form);
}

} // namespace catalogue
