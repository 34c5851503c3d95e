#include "app/own/measure_draft.h"

#include "app/own/measure_check.h"
#include "app/own/typed.h"
#include "core/catalogue/words.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace own
{

using catalogue::Direction;
using catalogue::Kind;
using catalogue::Measure;
using values::Unit;

namespace
{

QString wordsOf(const Measure& measure)
{
    QStringList words;
    for (const catalogue::Option& option : measure.options)
        words += option.title;
    return words.join(u'\n');
}

} // namespace

Kind kindOf(const MeasureDraft& draft)
{
    return catalogue::meaningOf<Kind>(draft.typed.at(MeasureField::Kind)).value_or(Kind::Grade);
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
    const bool isNumber = catalogue::isNumeric(kind);
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
    draft.typed = {
        {MeasureField::Title, measure.title},
        {MeasureField::ShortForm, measure.shortForm},
        {MeasureField::Section, measure.section},
        {MeasureField::Kind, word(measure.kind)},
        {MeasureField::Unit, values::code(measure.unit)},
        {MeasureField::Lowest, asTyped(measure.lowest)},
        {MeasureField::Highest, asTyped(measure.highest)},
        {MeasureField::Step, asTyped(measure.step)},
        {MeasureField::Better, measure.better == Direction::Neither ? QString() : word(measure.better)},
        {MeasureField::Sides, measure.hasSides ? u"both"_s : u"none"_s},
        {MeasureField::Words, wordsOf(measure)},
        {MeasureField::Rule, word(measure.rule)},
        {MeasureField::Trials, QString::number(std::max(2, measure.trials))},
        {MeasureField::Cap, asTyped(measure.cap)},
        {MeasureField::Purpose, measure.purpose},
        {MeasureField::How, measure.how},
        {MeasureField::Position, measure.position},
        {MeasureField::Equipment, measure.equipment},
        {MeasureField::UnableMeans, measure.unableMeans},
        {MeasureField::Caution, measure.caution}};
    for (const catalogue::ConditionRule& rule : measure.conditions)
        draft.conditions[rule.condition] = word(rule.strictness);
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

} // namespace own
