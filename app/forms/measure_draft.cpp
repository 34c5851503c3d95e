#include "app/forms/measure_draft.h"

#include "app/forms/measure_check.h"
#include "app/forms/typed.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace forms
{

using catalogue::Direction;
using catalogue::Kind;
using catalogue::Measure;
using catalogue::Strictness;
using catalogue::TrialRule;
using values::Unit;

namespace
{

constexpr std::pair<Kind, const char*> kinds[] = {{Kind::Grade, "grade"},       {Kind::Choice, "choice"},
                                                  {Kind::Count, "count"},       {Kind::Duration, "duration"},
                                                  {Kind::Distance, "distance"}, {Kind::Speed, "speed"},
                                                  {Kind::Rate, "rate"},         {Kind::Score, "score"}};

QString wordsOf(const Measure& measure)
{
    QStringList words;
    for (const catalogue::Option& option : measure.options)
        words += option.title;
    return words.join(u'\n');
}

QString code(Direction better)
{
    return better == Direction::HigherIsBetter  ? u"higher"_s
           : better == Direction::LowerIsBetter ? u"lower"_s
                                                : QString();
}

QString code(TrialRule rule)
{
    return rule == TrialRule::Mean ? u"mean"_s : rule == TrialRule::Best ? u"best"_s : u"single"_s;
}

} // namespace

QString code(Kind kind)
{
    const auto found = std::ranges::find(kinds, kind, &std::pair<Kind, const char*>::first);
    return QString::fromLatin1(found->second);
}

QString code(Strictness strictness)
{
    return strictness == Strictness::Hard         ? u"hard"_s
           : strictness == Strictness::IfRecorded ? u"if-recorded"_s
           : strictness == Strictness::IfEither   ? u"if-either"_s
                                                  : u"soft"_s;
}

Kind kindOf(const MeasureDraft& draft)
{
    const QString typed = draft.typed.at(MeasureField::Kind);
    const auto found =
        std::ranges::find_if(kinds, [&](const auto& kind) { return typed == QLatin1String(kind.second); });
    return found == std::end(kinds) ? Kind::Grade : found->first;
}

std::vector<Unit> unitsOf(Kind kind)
{
    switch (kind) {
    case Kind::Grade:
    case Kind::Choice:
        return {Unit::One};
    case Kind::Count:
        return {Unit::Count, Unit::Steps};
    case Kind::Duration:
        return {Unit::Second};
    case Kind::Distance:
        return {Unit::Metre, Unit::Centimetre};
    case Kind::Speed:
        return {Unit::MetrePerSecond};
    case Kind::Rate:
        return {Unit::StepsPerMinute, Unit::Percent};
    case Kind::Score:
        return {Unit::Score, Unit::Percent, Unit::Kilogram};
    }
    return {};
}

bool matters(MeasureField field, Kind kind)
{
    const bool isNumber = kind != Kind::Grade && kind != Kind::Choice;
    switch (field) {
    case MeasureField::Unit:
    case MeasureField::Step:
        return isNumber;
    case MeasureField::Lowest:
    case MeasureField::Highest:
    case MeasureField::Better:
        return kind != Kind::Choice;
    case MeasureField::Words:
        return !isNumber;
    case MeasureField::Rule:
    case MeasureField::Trials:
        return isNumber && kind != Kind::Score;
    case MeasureField::Cap:
        return kind == Kind::Duration;
    case MeasureField::Title:
    case MeasureField::ShortForm:
    case MeasureField::Section:
    case MeasureField::Kind:
    case MeasureField::Sides:
    case MeasureField::Purpose:
    case MeasureField::How:
    case MeasureField::Position:
    case MeasureField::Equipment:
    case MeasureField::UnableMeans:
    case MeasureField::Caution:
        return true;
    }
    return true;
}

MeasureDraft draftOf(const Measure& measure)
{
    MeasureDraft draft{measure, false, {}, {}};
    draft.typed = {{MeasureField::Title, measure.title},
                   {MeasureField::ShortForm, measure.shortForm},
                   {MeasureField::Section, measure.section},
                   {MeasureField::Kind, code(measure.kind)},
                   {MeasureField::Unit, values::code(measure.unit)},
                   {MeasureField::Lowest, asTyped(measure.lowest)},
                   {MeasureField::Highest, asTyped(measure.highest)},
                   {MeasureField::Step, asTyped(measure.step)},
                   {MeasureField::Better, code(measure.better)},
                   {MeasureField::Sides, measure.hasSides ? u"both"_s : u"none"_s},
                   {MeasureField::Words, wordsOf(measure)},
                   {MeasureField::Rule, code(measure.rule)},
                   {MeasureField::Trials, QString::number(std::max(2, measure.trials))},
                   {MeasureField::Cap, asTyped(measure.cap)},
                   {MeasureField::Purpose, measure.purpose},
                   {MeasureField::How, measure.how},
                   {MeasureField::Position, measure.position},
                   {MeasureField::Equipment, measure.equipment},
                   {MeasureField::UnableMeans, measure.unableMeans},
                   {MeasureField::Caution, measure.caution}};
    for (const catalogue::ConditionRule& rule : measure.conditions)
        draft.conditions[rule.condition] = code(rule.strictness);
    return draft;
}

MeasureDraft newMeasure(const catalogue::Catalogue& catalogue)
{
    Measure blank;
    blank.isOwn = true;
    blank.kind = Kind::Duration;
    blank.unit = Unit::Second;
    blank.section = catalogue.sections.empty() ? QString() : catalogue.sections.front().id;
    MeasureDraft draft = draftOf(blank);
    draft.isNew = true;
    return draft;
}

bool MeasureDraft::isChanged() const
{
    const MeasureDraft before = draftOf(original);
    return typed != before.typed || conditions != before.conditions;
}

CheckedMeasure checked(const MeasureDraft& draft, const catalogue::Catalogue& catalogue)
{
    return MeasureCheck(draft, catalogue).result();
}

} // namespace forms
