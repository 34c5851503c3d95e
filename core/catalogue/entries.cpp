#include "core/catalogue/entries.h"

#include <cmath>

namespace catalogue
{

namespace
{

enum class Allowed { OpenWords, ClosedWords, Number };

/// How many parts a rule takes; 0: any number.
qsizetype partsNeeded(Computing rule)
{
    switch (rule) {
    case Computing::Speed:
    case Computing::StepLength:
        return 1;
    case Computing::Cadence:
    case Computing::DualTaskCost:
        return 2;
    case Computing::ShortBattery:
        return 5;
    case Computing::SumOfItems:
        break;
    }
    return 0;
}

std::vector<Option> optionsFrom(Fields& fields)
{
    std::vector<Option> options;
    const auto objects = fields.objects(QStringLiteral("options"));
    for (const QJsonObject& object : objects) {
        Fields option(object, QStringLiteral("options"));
        options.push_back({option.text(QStringLiteral("key")), option.text(QStringLiteral("title"))});
        if (const auto fault = option.fault())
            fields.refuse(*fault);
        const auto isSame = [&](const Option& earlier) { return earlier.key == options.back().key; };
        if (std::count_if(options.begin(), options.end(), isSame) > 1)
            fields.refuse(base::said("“options” names the key “%1” twice").arg(options.back().key));
    }
    return options;
}

values::Unit unitFrom(Fields& fields)
{
    const QString written = fields.optionalText(QStringLiteral("unit"));
    const auto unit = values::unitFromCode(written);
    if (!unit)
        fields.refuse(base::said("unknown unit “%1”").arg(written));
    return unit.value_or(values::Unit::One);
}

void checkRange(Fields& fields, std::optional<double> lowest, std::optional<double> highest)
{
    if (lowest && highest && *lowest >= *highest)
        fields.refuse(base::said("“lowest” is not below “highest”"));
}

/// The words for the steps of a grade, from the lowest upwards, with the step's number as key.
std::vector<Option> stepsFrom(Fields& fields, const Measure& measure)
{
    std::vector<Option> options;
    const QStringList words = fields.texts(QStringLiteral("steps"));
    const double lowest = measure.lowest.value_or(0);
    for (const QString& word : words)
        options.push_back({QString::number(lowest + double(options.size())), word});
    if (!words.isEmpty() && measure.highest && lowest + double(words.size()) - 1 != *measure.highest)
        fields.refuse(base::said("“steps” does not name every step from lowest to highest"));
    return options;
}

/// Only a choice may leave it out: its words have no better end.
Direction directionFrom(Fields& fields, Kind kind)
{
    const QString key = QStringLiteral("better");
    if (kind == Kind::Choice && !fields.has(key))
        return Direction::Neither;
    return fields.oneOf<Direction>(key);
}

void addRules(Measure& measure, Fields& fields, const QStringList& conditions, Strictness strictness,
              const QString& onlyFor, const Catalogue& soFar)
{
    for (const QString& id : conditions) {
        const auto isSame = [&](const ConditionRule& rule) { return rule.condition == id; };
        if (soFar.condition(id) == nullptr)
            fields.refuse(base::said("“conditions”: unknown condition “%1”").arg(id));
        else if (std::ranges::any_of(measure.conditions, isSame))
            fields.refuse(base::said("“conditions” names “%1” twice").arg(id));
        measure.conditions.push_back({id, strictness, onlyFor});
    }
}

void readRules(Measure& measure, Fields& fields, const Catalogue& soFar)
{
    const auto object = fields.optionalObject(QStringLiteral("conditions"));
    if (!object)
        return;
    Fields rules(*object, QStringLiteral("conditions"));
    addRules(measure, fields, rules.texts(QStringLiteral("hard")), Strictness::Hard, {}, soFar);
    addRules(measure, fields, rules.texts(QStringLiteral("ifRecorded")), Strictness::IfRecorded, {}, soFar);
    addRules(measure, fields, rules.texts(QStringLiteral("ifEither")), Strictness::IfEither, {}, soFar);
    addRules(measure, fields, rules.texts(QStringLiteral("soft")), Strictness::Soft, {}, soFar);
    if (const auto groups = rules.optionalObject(QStringLiteral("hardFor"))) {
        Fields populations(*groups, QStringLiteral("hardFor"));
        const QStringList ids = groups->keys();
        for (const QString& population : ids) {
            if (soFar.population(population) == nullptr)
                fields.refuse(base::said("“hardFor”: unknown population “%1”").arg(population));
            addRules(measure, fields, populations.texts(population), Strictness::Hard, population, soFar);
        }
        if (const auto fault = populations.fault())
            fields.refuse(*fault);
    }
    if (const auto fault = rules.fault())
        fields.refuse(*fault);
}

void readPractice(Measure& measure, Fields& fields)
{
    const auto object = fields.optionalObject(QStringLiteral("practice"));
    if (!object)
        return;
    Fields practice(*object, QStringLiteral("practice"));
    measure.practice = Practice{practice.optionalCount(QStringLiteral("visits")).value_or(1),
                                practice.text(QStringLiteral("words"))};
    if (const auto fault = practice.fault())
        fields.refuse(*fault);
}

/// The parts may stand later in the catalogue; the reader checks them once every measure is there.
void readComputation(Measure& measure, Fields& fields)
{
    const auto object = fields.optionalObject(QStringLiteral("computed"));
    if (!object)
        return;
    Fields computed(*object, QStringLiteral("computed"));
    Computation made;
    made.rule = computed.oneOf<Computing>(QStringLiteral("rule"));
    made.parts = computed.texts(QStringLiteral("parts"));
    const qsizetype needed = partsNeeded(made.rule);
    if (needed > 0 ? made.parts.size() != needed : made.parts.isEmpty())
        computed.refuse(base::said("“parts” does not name the parts of this rule"));
    if (const auto fault = computed.fault())
        fields.refuse(*fault);
    measure.computed = made;
}

void readFollowing(Measure& measure, Fields& fields, const Catalogue& soFar)
{
    const auto object = fields.optionalObject(QStringLiteral("follows"));
    if (!object)
        return;
    Fields follows(*object, QStringLiteral("follows"));
    measure.following =
        Following{follows.text(QStringLiteral("hold")), follows.number(QStringLiteral("steadyFrom")),
                  follows.text(QStringLiteral("choice"))};
    const Measure* hold = soFar.measure(measure.following->hold);
    if (hold == nullptr || hold->kind != Kind::Duration || hold->hasSides)
        follows.refuse(
            base::said("“hold”: no measure “%1” in seconds and without sides stands before this one")
                .arg(measure.following->hold));
    if (measure.hasSides || optionOf(measure.options, measure.following->choice) == nullptr)
        follows.refuse(base::said("“choice”: “%1” is no option of a measure without sides")
                           .arg(measure.following->choice));
    if (const auto fault = follows.fault())
        fields.refuse(*fault);
}

void checkShape(const Measure& measure, Fields& fields)
{
    if (measure.kind == Kind::Choice) {
        if (measure.options.size() < 2)
            fields.refuse(base::said("a choice needs at least two “options”"));
        if (measure.lowest || measure.highest || measure.step)
            fields.refuse(base::said("a choice has no range and no step"));
        return;
    }
    if (!measure.lowest || !measure.highest || !measure.step)
        fields.refuse(base::said("“lowest”, “highest” and “step” are needed"));
    else if (*measure.step <= 0)
        fields.refuse(base::said("“step” is not above 0"));
    if (measure.kind == Kind::Grade && (measure.step != 1 || std::fmod(measure.lowest.value_or(0), 1) != 0))
        fields.refuse(base::said("a grade has whole steps"));
    if (measure.cap && measure.highest && *measure.cap > *measure.highest)
        fields.refuse(base::said("“cap” lies above “highest”"));
    if ((measure.trials > 1) == (measure.rule == TrialRule::Single))
        fields.refuse(base::said("“trials” and “rule” do not fit each other"));
}

} // namespace

Section sectionFrom(Fields& fields)
{
    return {fields.text(QStringLiteral("id")), fields.text(QStringLiteral("title"))};
}

Condition conditionFrom(Fields& fields)
{
    Condition condition;
    condition.id = fields.text(QStringLiteral("id"));
    condition.title = fields.text(QStringLiteral("title"));
    const auto allowed =
        fields.oneOf<Allowed>(QStringLiteral("kind"), {{QStringLiteral("open"), Allowed::OpenWords},
                                                       {QStringLiteral("closed"), Allowed::ClosedWords},
                                                       {QStringLiteral("number"), Allowed::Number}});
    condition.isNumber = allowed == Allowed::Number;
    condition.isClosed = allowed == Allowed::ClosedWords;
    condition.isOfTest = fields.optionalFlag(QStringLiteral("ofTest"));
    condition.isOfOneVisit = fields.optionalFlag(QStringLiteral("ofOneVisit"));
    condition.isTold = fields.optionalFlag(QStringLiteral("told"));
    if (condition.isNumber) {
        condition.unit = unitFrom(fields);
        condition.lowest = fields.number(QStringLiteral("lowest"));
        condition.highest = fields.number(QStringLiteral("highest"));
        checkRange(fields, condition.lowest, condition.highest);
    } else {
        condition.hinders = fields.optionalFlag(QStringLiteral("hinders"));
        condition.options = optionsFrom(fields);
        if ((condition.isClosed || condition.hinders) && condition.options.empty())
            fields.refuse(base::said("“options” is missing"));
    }
    return condition;
}

Population populationFrom(Fields& fields, const Catalogue& soFar)
{
    Population population{fields.text(QStringLiteral("id")), fields.text(QStringLiteral("title")),
                          fields.optionalText(QStringLiteral("broader")),
                          fields.optionalCount(QStringLiteral("confirmAfterDays"))};
    if (!population.broader.isEmpty() && soFar.population(population.broader) == nullptr)
        fields.refuse(
            base::said("“broader”: no population “%1” stands before this one").arg(population.broader));
    return population;
}

Source sourceFrom(Fields& fields)
{
    return {fields.text(QStringLiteral("id")), fields.text(QStringLiteral("reference")),
            fields.optionalText(QStringLiteral("doi")), fields.text(QStringLiteral("shortForm"))};
}

Measure measureFrom(Fields& fields, const Catalogue& soFar)
{
    Measure measure;
    measure.id = fields.text(QStringLiteral("id"));
    measure.title = fields.text(QStringLiteral("title"));
    measure.shortForm = fields.optionalText(QStringLiteral("shortForm"));
    measure.section = fields.text(QStringLiteral("section"));
    if (soFar.section(measure.section) == nullptr)
        fields.refuse(base::said("unknown section “%1”").arg(measure.section));
    measure.kind = fields.oneOf<Kind>(QStringLiteral("kind"));
    measure.unit = unitFrom(fields);
    measure.hasSides = fields.flag(QStringLiteral("sides"));
    measure.better = directionFrom(fields, measure.kind);
    measure.lowest = fields.optionalNumber(QStringLiteral("lowest"));
    measure.highest = fields.optionalNumber(QStringLiteral("highest"));
    measure.step = fields.optionalNumber(QStringLiteral("step"));
    checkRange(fields, measure.lowest, measure.highest);
    measure.options = measure.kind == Kind::Grade ? stepsFrom(fields, measure) : optionsFrom(fields);
    measure.trials = fields.optionalCount(QStringLiteral("trials")).value_or(1);
    measure.rule = fields.oneOf<TrialRule>(QStringLiteral("rule"), words<TrialRule>(), TrialRule::Single);
    measure.cap = fields.optionalNumber(QStringLiteral("cap"));
    readPractice(measure, fields);
    for (const QString& sign : fields.texts(QStringLiteral("watchFor")))
        measure.watchFor.push_back({sign, sign});
    measure.purpose = fields.text(QStringLiteral("purpose"));
    measure.alsoCalled = fields.optionalText(QStringLiteral("alsoCalled"));
    measure.plainly = fields.optionalText(QStringLiteral("plainly"));
    measure.how = fields.text(QStringLiteral("how"));
    measure.position = fields.text(QStringLiteral("position"));
    measure.equipment = fields.optionalText(QStringLiteral("equipment"));
    measure.unableMeans = fields.text(QStringLiteral("unableMeans"));
    measure.caution = fields.optionalText(QStringLiteral("caution"));
    measure.agreement = fields.optionalText(QStringLiteral("agreement"));
    readRules(measure, fields, soFar);
    readComputation(measure, fields);
    readFollowing(measure, fields, soFar);
    measure.partOf = fields.optionalText(QStringLiteral("partOf"));
    measure.hasLicensedWording = fields.optionalFlag(QStringLiteral("licensedWording"));
    measure.isTapped = fields.optionalFlag(QStringLiteral("tapped"));
    measure.isStepped = fields.optionalFlag(QStringLiteral("stepped"));
    measure.missteps = fields.optionalText(QStringLiteral("missteps"));
    measure.countsEvents = fields.optionalFlag(QStringLiteral("events"));
    measure.retired = fields.optionalFlag(QStringLiteral("retired"));
    checkShape(measure, fields);
    return measure;
}

Form formFrom(Fields& fields)
{
    Form form;
    form.id = fields.text(QStringLiteral("id"));
    form.title = fields.text(QStringLiteral("title"));
    const auto sections = fields.objects(QStringLiteral("sections"));
    for (const QJsonObject& object : sections) {
        Fields section(object, QStringLiteral("sections"));
        form.sections.push_back(
            {section.text(QStringLiteral("title")), section.texts(QStringLiteral("measures"))});
        if (const auto fault = section.fault())
            fields.refuse(*fault);
    }
    form.expected = fields.texts(QStringLiteral("expected"));
    return form;
}

Form formFrom(Fields& fields, const Catalogue& soFar)
{
    Form form = formFrom(fields);
    const QStringList measures = form.measures();
    if (measures.isEmpty())
        fields.refuse(base::said("“measures” names none"));
    for (const QString& id : measures) {
        if (soFar.measure(id) == nullptr)
            fields.refuse(base::said("“measures”: unknown measure “%1”").arg(id));
    }
    for (const QString& id : std::as_const(form.expected)) {
        if (!measures.contains(id))
            fields.refuse(base::said("“expected”: “%1” is not in the form").arg(id));
    }
    return form;
}

std::optional<Requirement> requirementFrom(Fields& fields, const Catalogue& soFar)
{
    const QString text = fields.optionalText(QStringLiteral("condition"));
    if (text.isEmpty())
        return std::nullopt;
    const auto asked = requirement(text);
    if (!asked)
        fields.refuse(base::said("“condition” is not written as medication=on"));
    else if (soFar.condition(asked->condition) == nullptr)
        fields.refuse(base::said("“condition”: unknown id “%1”").arg(asked->condition));
    return asked;
}

} // namespace catalogue
