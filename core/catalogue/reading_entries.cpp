#include "core/catalogue/reading_entries.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace catalogue
{

namespace
{

/// Where it comes from: read in a source that is named, or recalled, with or without one.
void takeOrigin(QString& source, Checked& checked, Fields& fields, const Catalogue& soFar)
{
    source = fields.optionalText(u"source"_s);
    checked = fields.oneOf<Checked>(u"checked"_s);
    if (!source.isEmpty() && soFar.source(source) == nullptr)
        fields.refuse(base::said("unknown source “%1”").arg(source));
    if (source.isEmpty() && checked == Checked::Read)
        fields.refuse(base::said("“checked” is “read”, but no source is named"));
}

Look lookFrom(Fields& fields, const Catalogue& soFar)
{
    Look look;
    look.measure = fields.text(u"measure"_s);
    look.options = fields.texts(u"options"_s);
    look.from = fields.optionalNumber(u"from"_s);
    look.to = fields.optionalNumber(u"to"_s);
    look.signs = fields.texts(u"signs"_s);
    if (soFar.measure(look.measure) == nullptr)
        fields.refuse(base::said("unknown measure “%1”").arg(look.measure));
    return look;
}

PatternRule ruleFrom(Fields& fields, const Catalogue& soFar)
{
    PatternRule rule;
    rule.looks.push_back(lookFrom(fields, soFar));
    const auto further = fields.objects(u"with"_s);
    for (const QJsonObject& object : further) {
        Fields with(object, u"with"_s);
        rule.looks.push_back(lookFrom(with, soFar));
        if (const auto fault = with.fault())
            fields.refuse(*fault);
    }
    takeOrigin(rule.source, rule.checked, fields, soFar);
    return rule;
}

std::vector<PatternRule> rulesFrom(Fields& fields, const QString& key, const Catalogue& soFar)
{
    std::vector<PatternRule> rules;
    const auto objects = fields.objects(key);
    for (const QJsonObject& object : objects) {
        Fields rule(object, key);
        rules.push_back(ruleFrom(rule, soFar));
        if (const auto fault = rule.fault())
            fields.refuse(*fault);
    }
    return rules;
}

/// Whether every key is that of one of the options.
bool areOf(const std::vector<Option>& options, const QStringList& keys)
{
    return std::ranges::all_of(keys, [&](const QString& key) { return optionOf(options, key) != nullptr; });
}

bool isWithin(std::optional<double> number, const Measure& measure)
{
    return !number ||
           (measure.lowest && measure.highest && *number >= *measure.lowest && *number <= *measure.highest);
}

void auditLook(base::Messages& faults, const Catalogue& catalogue, const QString& id, const Look& look)
{
    const Measure* measure = catalogue.measure(look.measure);
    if (measure == nullptr) {
        faults.push_back(base::said("%1: unknown measure “%2”.").arg(id, look.measure));
        return;
    }
    if (look.options.isEmpty() && !look.from && !look.to && look.signs.isEmpty())
        faults.push_back(base::said("%1: it is not said what “%2” must be.").arg(id, look.measure));
    if (!look.options.isEmpty() && (measure->kind != Kind::Choice || !areOf(measure->options, look.options)))
        faults.push_back(base::said("%1: a word that is none of “%2”.").arg(id, look.measure));
    if (!areOf(measure->watchFor, look.signs))
        faults.push_back(base::said("%1: a sign that is none of “%2”.").arg(id, look.measure));
    const bool isBackwards = look.from && look.to && *look.from > *look.to;
    if (isBackwards || !isWithin(look.from, *measure) || !isWithin(look.to, *measure))
        faults.push_back(base::said("%1: a number that is none of “%2”.").arg(id, look.measure));
}

void auditPattern(base::Messages& faults, const Catalogue& catalogue, const Pattern& pattern)
{
    for (const QString& id : pattern.needs) {
        if (catalogue.measure(id) == nullptr)
            faults.push_back(base::said("%1: unknown measure “%2”.").arg(pattern.id, id));
    }
    if (pattern.needs.isEmpty())
        faults.push_back(base::said("%1: it is not said which tests it needs.").arg(pattern.id));
    if (pattern.supports.empty())
        faults.push_back(base::said("%1: nothing supports the pattern.").arg(pattern.id));
    for (const auto* rules : {&pattern.supports, &pattern.contradicts}) {
        for (const PatternRule& rule : *rules) {
            for (const Look& look : rule.looks)
                auditLook(faults, catalogue, pattern.id, look);
        }
    }
}

} // namespace

RedFlag redFlagFrom(Fields& fields, const Catalogue& soFar)
{
    RedFlag flag;
    flag.id = fields.text(u"id"_s);
    flag.group = fields.text(u"group"_s);
    flag.question = fields.text(u"question"_s);
    flag.inShort = fields.text(u"inShort"_s);
    flag.urgency = fields.text(u"urgency"_s);
    takeOrigin(flag.source, flag.checked, fields, soFar);
    flag.retired = fields.optionalFlag(u"retired"_s);
    return flag;
}

Pattern patternFrom(Fields& fields, const Catalogue& soFar)
{
    Pattern pattern;
    pattern.id = fields.text(u"id"_s);
    pattern.title = fields.text(u"title"_s);
    pattern.needs = fields.texts(u"needs"_s);
    pattern.supports = rulesFrom(fields, u"supports"_s, soFar);
    pattern.contradicts = rulesFrom(fields, u"contradicts"_s, soFar);
    pattern.note = fields.optionalText(u"note"_s);
    for (const QString& id : std::as_const(pattern.needs)) {
        if (soFar.measure(id) == nullptr)
            fields.refuse(base::said("“needs”: unknown measure “%1”").arg(id));
    }
    return pattern;
}

base::Messages readingFaults(const Catalogue& catalogue)
{
    base::Messages faults;
    for (const RedFlag& flag : catalogue.redFlags) {
        if (!flag.urgency.contains(u"local"_s))
            faults.push_back(
                base::said("%1: how soon it is seen to does not defer to the local pathway.").arg(flag.id));
        if (!flag.question.endsWith(u'?'))
            faults.push_back(base::said("%1: it is no question.").arg(flag.id));
    }
    for (const Pattern& pattern : catalogue.patterns)
        auditPattern(faults, catalogue, pattern);
    return faults;
}

} // namespace catalogue
