#include "app/own/measure_check.h"

#include "app/own/own_id.h"
#include "app/own/typed.h"
#include "core/base/text.h"
#include "core/catalogue/words.h"

#include <algorithm>
#include <cmath>

using namespace Qt::StringLiterals;

namespace own
{

using catalogue::Direction;
using catalogue::Kind;
using catalogue::Measure;
using catalogue::Option;
using catalogue::Strictness;
using catalogue::TrialRule;

namespace
{

constexpr int mostGrades = 10; ///< steps a row of keys has room for
constexpr int mostTrials = 10;

bool isWhole(double number)
{
    return std::trunc(number) == number;
}

/// The key a word had, so that recorded answers keep their meaning: of the same word, or of the word that
/// stood in its line and is gone.
QString keyFor(const QStringList& words, qsizetype line, const std::vector<Option>& before)
{
    const auto same = std::ranges::find(before, words[line], &Option::title);
    if (same != before.end())
        return same->key;
    const bool isReworded = size_t(line) < before.size() && before.size() == size_t(words.size()) &&
                            !words.contains(before[size_t(line)].title);
    return isReworded ? before[size_t(line)].key : keyOf(words[line]);
}

} // namespace

MeasureCheck::MeasureCheck(const MeasureDraft& draft, const catalogue::Catalogue& catalogue)
    : FieldCheck(draft.typed, [kind = kindOf(draft)](MeasureField field) { return matters(field, kind); }),
      m_draft(draft),
      m_catalogue(catalogue),
      m_kind(kindOf(draft)),
      m_result{draft.original, {}}
{
}

CheckedMeasure MeasureCheck::result()
{
    takeNames();
    switch (m_kind) {
    case Kind::Choice:
        takeChoice();
        break;
    case Kind::Grade:
        takeGrade();
        break;
    case Kind::Count:
    case Kind::Duration:
    case Kind::Distance:
    case Kind::Speed:
    case Kind::Rate:
    case Kind::Score:
        takeScale();
        break;
    }
    takeTrials();
    takeConditions();
    m_result.wrong = m_wrong;
    return m_result;
}

/// Empty, and refused, where no number is typed.
std::optional<double> MeasureCheck::number(MeasureField field)
{
    const auto typed = numberTyped(words(field));
    if (!typed)
        refuse(field, tr("Type a number alone, such as 0 or 2.5."));
    return typed;
}

void MeasureCheck::takeNames()
{
    Measure& measure = m_result.measure;
    measure.isOwn = true;
    measure.title = needed(MeasureField::Title, tr("Give the test a title."));
    const auto isSame = [&](const Measure& other) {
        return other.id != m_draft.original.id && base::folded(other.title) == base::folded(measure.title);
    };
    if (std::ranges::any_of(m_catalogue.measures, isSame))
        refuse(MeasureField::Title, tr("Another test has this title already."));
    if (m_draft.isNew)
        measure.id = ownId(measure.title, m_catalogue.measures);
    measure.shortForm = words(MeasureField::ShortForm);
    measure.section = words(MeasureField::Section);
    if (m_catalogue.section(measure.section) == nullptr)
        refuse(MeasureField::Section, tr("Choose the section it belongs to."));
    measure.kind = m_kind;
    measure.hasSides = words(MeasureField::Sides) == u"both";
    measure.purpose = needed(MeasureField::Purpose, tr("Say what it is for."));
    measure.how = needed(MeasureField::How, tr("Say how it is done, so that everyone does it alike."));
    measure.position = needed(MeasureField::Position, tr("Say how the patient sits, stands or lies."));
    measure.equipment = words(MeasureField::Equipment);
    measure.unableMeans = needed(MeasureField::UnableMeans, tr("Say when the patient counts as unable."));
    measure.caution = words(MeasureField::Caution);
}

void MeasureCheck::takeScale()
{
    Measure& measure = m_result.measure;
    measure.options.clear();
    const auto unit = values::unitFromCode(words(MeasureField::Unit));
    const auto units = unitsOf(m_kind);
    measure.unit = unit.value_or(units.front());
    if (!unit || std::ranges::find(units, *unit) == units.end())
        refuse(MeasureField::Unit, tr("Choose a unit that goes with this kind of test."));
    measure.lowest = number(MeasureField::Lowest);
    measure.highest = number(MeasureField::Highest);
    measure.step = number(MeasureField::Step);
    if (measure.lowest && measure.highest && *measure.lowest >= *measure.highest)
        refuse(MeasureField::Highest, tr("The highest value must lie above the lowest."));
    else if (measure.step && *measure.step <= 0)
        refuse(MeasureField::Step, tr("The step must be above 0."));
    else if (measure.step && measure.lowest && measure.highest &&
             *measure.step > *measure.highest - *measure.lowest)
        refuse(MeasureField::Step, tr("The step is wider than the whole range."));
    measure.better =
        catalogue::meaningOf<Direction>(words(MeasureField::Better)).value_or(Direction::Neither);
    if (measure.better == Direction::Neither)
        refuse(MeasureField::Better, tr("Say whether a higher or a lower result is better."));
}

void MeasureCheck::takeGrade()
{
    takeScale();
    Measure& measure = m_result.measure;
    m_wrong.erase(MeasureField::Step);
    measure.step = 1;
    if (!measure.lowest || !measure.highest)
        return;
    if (!isWhole(*measure.lowest) || *measure.lowest < 0)
        refuse(MeasureField::Lowest, tr("A grade is a whole number from 0."));
    if (!isWhole(*measure.highest) || *measure.highest - *measure.lowest >= mostGrades)
        refuse(MeasureField::Highest, tr("Grades are whole numbers, at most %1 of them.").arg(mostGrades));
    const QStringList lines = linesTyped(words(MeasureField::Words));
    if (!lines.isEmpty() && double(lines.size()) != *measure.highest - *measure.lowest + 1)
        refuse(MeasureField::Words, tr("Write one line for each grade from the lowest, or none."));
    else if (QSet<QString>(lines.begin(), lines.end()).size() != lines.size())
        refuse(MeasureField::Words, tr("Two lines say the same."));
    for (const QString& line : lines)
        measure.options.push_back({QString::number(*measure.lowest + double(measure.options.size())), line});
}

void MeasureCheck::takeChoice()
{
    Measure& measure = m_result.measure;
    measure.unit = values::Unit::One;
    measure.better = Direction::Neither;
    measure.lowest = measure.highest = measure.step = std::nullopt;
    measure.options.clear();
    const QStringList lines = linesTyped(words(MeasureField::Words));
    QStringList keys;
    for (qsizetype line = 0; line < lines.size(); ++line) {
        const QString key = keyFor(lines, line, m_draft.original.options);
        if (key.isEmpty())
            refuse(MeasureField::Words, tr("“%1” holds no letter.").arg(lines[line]));
        if (keys.contains(key))
            refuse(MeasureField::Words, tr("Two lines say the same."));
        keys += key;
        measure.options.push_back({key, lines[line]});
    }
    if (lines.size() < 2)
        refuse(MeasureField::Words, tr("Write at least two answers, each on a line of its own."));
}

void MeasureCheck::takeTrials()
{
    Measure& measure = m_result.measure;
    measure.rule = catalogue::meaningOf<TrialRule>(words(MeasureField::Rule)).value_or(TrialRule::Single);
    measure.trials = 1;
    if (measure.rule != TrialRule::Single) {
        const auto trials = number(MeasureField::Trials);
        if (trials && (!isWhole(*trials) || *trials < 2 || *trials > mostTrials))
            refuse(MeasureField::Trials, tr("Type a whole number from 2 to %1.").arg(mostTrials));
        else
            measure.trials = int(trials.value_or(2));
    }
    measure.cap.reset();
    if (words(MeasureField::Cap).isEmpty())
        return;
    measure.cap = number(MeasureField::Cap);
    if (measure.cap && *measure.cap <= 0)
        refuse(MeasureField::Cap, tr("The time at which a trial is stopped must be above 0 s."));
    if (measure.cap && measure.highest && !m_wrong.contains(MeasureField::Highest) &&
        *measure.cap > *measure.highest)
        refuse(MeasureField::Cap, tr("A trial is stopped at or below the highest value."));
}

/// In the order of the catalogue. A strictness that holds in one population only stays so while it is not
/// changed.
void MeasureCheck::takeConditions()
{
    Measure& measure = m_result.measure;
    measure.conditions.clear();
    for (const catalogue::Condition& condition : m_catalogue.conditions) {
        const auto chosen = m_draft.conditions.find(condition.id);
        if (chosen == m_draft.conditions.end() || chosen->second.isEmpty())
            continue;
        catalogue::ConditionRule rule{
            condition.id, catalogue::meaningOf<Strictness>(chosen->second).value_or(Strictness::Soft), {}};
        for (const catalogue::ConditionRule& before : m_draft.original.conditions) {
            if (before.condition == rule.condition && before.strictness == rule.strictness)
                rule = before;
        }
        measure.conditions.push_back(rule);
    }
}

} // namespace own
