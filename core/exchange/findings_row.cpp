#include "core/exchange/findings_row.h"

#include "core/base/text.h"
#include "core/records/check.h"
#include "core/records/texts.h"

#include <QRegularExpression>

#include <algorithm>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

/// The cells of one row by the names of their columns; empty where the file has no such column.
struct Cells {
    const base::CsvRow& row;
    const QHash<QString, qsizetype>& header;

    QString operator[](const QString& column) const
    {
        const auto place = header.constFind(column);
        return place == header.cend() ? QString() : base::tidied(row.cells.at(*place));
    }
    base::Error wrong(const QString& column, const base::Message& allowed) const
    {
        return wrongAt(row.line, column, allowed);
    }
};

template <class Row>
base::Message listed(const std::vector<Row>& rows, QString Row::*name, size_t most = 24)
{
    QStringList names;
    for (const Row& row : rows)
        names += row.*name;
    return base::listed(base::verbatims(names), most);
}

/// The option of this key; else the one whose key or title is written alike but for case and accents. nullptr
/// where there is none.
const catalogue::Option* optionNamed(const std::vector<catalogue::Option>& options, const QString& text)
{
    if (const catalogue::Option* option = catalogue::optionOf(options, text))
        return option;
    const auto found =
        std::ranges::find_if(options, [folded = base::folded(text)](const catalogue::Option& option) {
            return base::folded(option.key) == folded || base::folded(option.title) == folded;
        });
    return found == options.end() ? nullptr : &*found;
}

base::Result<records::Patient> patientNamed(const Cells& cells, const catalogue::Catalogue& catalogue)
{
    records::Patient patient;
    patient.recordNumber = cells[u"patient"_s];
    patient.family = cells[u"family"_s];
    patient.given = cells[u"given"_s];
    patient.population = cells[u"population"_s];
    if (patient.recordNumber.isEmpty())
        return cells.wrong(u"patient"_s, base::said("The clinic's own record number is needed."));
    for (const auto& [column, title, limit] :
         {std::tuple(u"patient"_s, base::said("Record number"), records::numberLimit),
          std::tuple(u"family"_s, base::said("Family name"), records::nameLimit),
          std::tuple(u"given"_s, base::said("Given name"), records::nameLimit)}) {
        if (const auto wrong = records::wrongWithText(title, cells[column], limit))
            return cells.wrong(column, wrong->what);
    }
    if (const QString born = cells[u"born"_s]; !born.isEmpty()) {
        patient.born = isoDay(born);
        if (!patient.born)
            return cells.wrong(u"born"_s, base::said("Allowed is a date as 1951-03-04, or nothing."));
    }
    if (const QString sex = cells[u"sex"_s]; !sex.isEmpty()) {
        const auto known = records::sexFromCode(sex);
        if (!known)
            return cells.wrong(
                u"sex"_s, base::said("Allowed are %1, or nothing.").arg(u"female, male, other, unknown"_s));
        patient.sex = *known;
    }
    if (!patient.population.isEmpty() && catalogue.population(patient.population) == nullptr) {
        return cells.wrong(u"population"_s,
                           base::said("Allowed are %1, or nothing.")
                               .arg(listed(catalogue.populations, &catalogue::Population::id)));
    }
    return patient;
}

base::Result<records::Side> sideIn(const Cells& cells, const catalogue::Measure& measure)
{
    const QString text = cells[u"side"_s];
    const auto side = text.isEmpty() ? records::Side::None : records::sideFromCode(text);
    if (!side || (*side != records::Side::None) != measure.hasSides) {
        return cells.wrong(
            u"side"_s, measure.hasSides
                           ? base::said("Allowed for this measure are %1 and %2.").arg(u"right"_s, u"left"_s)
                           : base::said("Allowed for this measure is %1, or nothing.").arg(u"none"_s));
    }
    return *side;
}

base::Result<int> trialIn(const Cells& cells, bool mayBeSeveral)
{
    const QString text = cells[u"trial"_s];
    constexpr int most = 20;
    bool isNumber = true;
    const int trial = text.isEmpty() ? 1 : text.toInt(&isNumber);
    if (!isNumber || trial < 1 || trial > (mayBeSeveral ? most : 1)) {
        return cells.wrong(
            u"trial"_s,
            mayBeSeveral ? base::said("Allowed is a whole number from 1 to %1, or nothing for 1.").arg(most)
                         : base::said("Allowed for this measure is 1, or nothing."));
    }
    return trial;
}

/// A number as the C locale writes it, without an exponent; zeros at the end of its decimals are passed over.
base::Result<double> numberIn(const Cells& cells, const catalogue::Measure& measure)
{
    static const QRegularExpression number(u"^-?[0-9]+(\\.[0-9]+)?$"_s);
    static const QRegularExpression lastZeros(u"\\.?0+$"_s);
    QString text = cells[u"value"_s];
    if (!number.match(text).hasMatch()) {
        return cells.wrong(u"value"_s, base::said("Allowed is a number with a point before its decimals, %1.")
                                           .arg(records::allowedWords(measure)));
    }
    if (text.contains(u'.'))
        text.remove(lastZeros);
    const auto typed = records::numberTyped(text, measure);
    if (!typed)
        return cells.wrong(u"value"_s, typed.error().what);
    return *typed;
}

base::Result<values::Value> wordIn(const Cells& cells, const catalogue::Measure& measure)
{
    if (const auto* option = optionNamed(measure.options, cells[u"value"_s]))
        return values::Value(values::Choice{option->key});
    return cells.wrong(u"value"_s,
                       base::said("Allowed are %1.").arg(listed(measure.options, &catalogue::Option::key)));
}

/// Why there is no value; nothing where the finding was done.
base::Result<std::optional<values::Absence>> absenceIn(const Cells& cells)
{
    QString state = cells[u"state"_s];
    if (state == u"declined"_s)
        state = u"refused"_s; // files written before the state had a word of its own
    const bool hasValue = !cells[u"value"_s].isEmpty();
    const auto absence = values::absenceFromCode(state);
    if (state.isEmpty() && !hasValue) {
        return cells.wrong(u"state"_s,
                           base::said("Without a value it must say why: %1 or %2.")
                               .arg(u"unable, not-attempted, refused, not-applicable"_s, u"not-asked"_s));
    }
    if (!state.isEmpty() && state != u"done"_s && !absence) {
        return cells.wrong(u"state"_s,
                           base::said("Allowed are %1, or nothing beside a value.")
                               .arg(u"done, unable, not-attempted, refused, not-applicable, not-asked"_s));
    }
    if (hasValue == absence.has_value()) {
        return cells.wrong(
            u"value"_s, hasValue ? base::said("Allowed for a state other than %1 is nothing.").arg(u"done"_s)
                                 : base::said("A value is needed for the state %1.").arg(u"done"_s));
    }
    if (absence == values::Absence::NotAttempted && cells[u"reason"_s].isEmpty())
        return cells.wrong(u"reason"_s, base::said("The state %1 needs a reason.").arg(u"not-attempted"_s));
    return absence;
}

/// Whether the trial was stopped at the measure's cap; nothing where the row does not say. A test that was
/// stopped there is either unable, or has the cap as its value.
base::Result<std::optional<bool>> cappedIn(const Cells& cells, const catalogue::Measure& measure,
                                           const std::optional<values::Absence>& absence)
{
    const QString text = cells[cappedColumn];
    if (text.isEmpty() || text == u"no")
        return text.isEmpty() ? std::optional<bool>() : std::optional(false);
    if (text != u"yes")
        return cells.wrong(cappedColumn, base::said("Allowed are %1, or nothing.").arg(u"yes, no"_s));
    if (!measure.cap)
        return cells.wrong(cappedColumn,
                           base::said("This measure has no cap; allowed is %1, or nothing.").arg(u"no"_s));
    const bool isStoppedThere =
        absence ? absence == values::Absence::Unable : cells[u"value"_s].toDouble() == *measure.cap;
    if (!isStoppedThere)
        return cells.wrong(cappedColumn, base::said("“%1” is allowed beside the value %2, or the state %3.")
                                             .arg(u"yes"_s, QString::number(*measure.cap), u"unable"_s));
    return std::optional(true);
}

base::Result<void> reasonIn(const Cells& cells, bool isNote)
{
    const auto wrong =
        records::wrongWithText(isNote ? base::said("Note") : base::said("Reason"), cells[u"reason"_s],
                               isNote ? records::noteLimit : records::lineLimit);
    return wrong ? base::Result<void>(cells.wrong(u"reason"_s, wrong->what)) : base::Result<void>();
}

base::Result<void> unitIn(const Cells& cells, const catalogue::Measure& measure)
{
    const QString unit = cells[u"unit"_s];
    const QString code = values::code(measure.unit);
    const QString symbol = values::symbol(measure.unit);
    if (unit.isEmpty() || unit == code || unit == symbol)
        return {};
    if (code.isEmpty())
        return cells.wrong(u"unit"_s, base::said("Allowed for this measure is nothing."));
    return cells.wrong(u"unit"_s, symbol.isEmpty() || symbol == code
                                      ? base::said("Allowed is %1, or nothing.").arg(code)
                                      : base::said("Allowed is %1 or %2, or nothing.").arg(code, symbol));
}

/// Older files give the length of a course as the timed distance of a walk that times none.
void takeCourse(records::Conditions& conditions, const catalogue::Measure& measure)
{
    const auto asksFor = [&](const QString& id) {
        return std::ranges::find(measure.conditions, id, &catalogue::ConditionRule::condition) !=
               measure.conditions.end();
    };
    if (asksFor(u"course_m"_s) && !asksFor(u"distance_m"_s) && conditions.contains(u"distance_m"_s) &&
        !conditions.contains(u"course_m"_s))
        conditions[u"course_m"_s] = conditions[u"distance_m"_s];
}

base::Result<records::Finding> findingIn(const Cells& cells, const catalogue::Measure& measure,
                                         const catalogue::Catalogue& catalogue)
{
    records::Finding finding;
    finding.measure = measure.id;
    const auto side = sideIn(cells, measure);
    if (!side)
        return side.error();
    finding.side = *side;
    if (const auto unit = unitIn(cells, measure); !unit)
        return unit.error();
    const auto absence = absenceIn(cells);
    if (!absence)
        return absence.error();
    const auto capped = cappedIn(cells, measure, *absence);
    if (!capped)
        return capped.error();
    if (const auto reason = reasonIn(cells, !absence->has_value()); !reason)
        return reason.error();
    if (*absence) {
        finding.value = values::Missing{**absence, cells[u"reason"_s]};
        finding.capReached = capped->value_or(false);
        return finding;
    }
    finding.note = cells[u"reason"_s];
    if (measure.kind == catalogue::Kind::Choice) {
        const auto word = wordIn(cells, measure);
        if (!word)
            return word.error();
        finding.value = *word;
        return finding;
    }
    const auto number = numberIn(cells, measure);
    if (!number)
        return number.error();
    if (measure.kind == catalogue::Kind::Grade) {
        finding.value = values::Grade{int(*number)};
        return finding;
    }
    finding.trials = {*number};
    finding.value = values::Quantity{*number, measure.unit};
    finding.capReached = capped->value_or(isCapHeld(*number, measure));
    if (const auto wrong = records::wrongWith(finding, catalogue))
        return cells.wrong(u"value"_s, wrong->what);
    return finding;
}

} // namespace

bool isCapHeld(double number, const catalogue::Measure& measure)
{
    return measure.cap && number == *measure.cap && measure.better == catalogue::Direction::HigherIsBetter;
}

FindingRows::FindingRows(QHash<QString, qsizetype> header, const catalogue::Catalogue& catalogue)
    : m_header(std::move(header)), m_catalogue(catalogue)
{
    for (const catalogue::Measure& measure : catalogue.measures)
        m_measures.insert(measure.id, &measure);
    for (const catalogue::Condition& condition : catalogue.conditions) {
        if (const auto place = m_header.constFind(condition.id); place != m_header.cend())
            m_conditions.emplace_back(&condition, *place);
    }
    for (const QString& column :
         {u"patient"_s, u"family"_s, u"given"_s, u"born"_s, u"sex"_s, u"population"_s})
        m_identity += m_header.value(column);
}

/// Who the patient is; the rows of one patient mostly say the same.
base::Result<records::Patient> FindingRows::patientIn(const base::CsvRow& row)
{
    QStringList cells;
    for (const qsizetype place : std::as_const(m_identity))
        cells += row.cells.at(place);
    if (cells == m_lastCells)
        return m_last;
    auto patient = patientNamed(Cells{row, m_header}, m_catalogue);
    if (patient) {
        m_lastCells = cells;
        m_last = *patient;
    }
    return patient;
}

base::Result<records::Conditions> FindingRows::conditionsIn(const base::CsvRow& row) const
{
    const Cells cells{row, m_header};
    records::Conditions conditions;
    for (const auto& [condition, place] : m_conditions) {
        QString value = base::tidied(row.cells.at(place));
        if (value.isEmpty())
            continue;
        if (const auto* option = optionNamed(condition->options, value))
            value = option->key;
        else if (condition->isClosed)
            return cells.wrong(condition->id, base::said("Allowed are %1, or nothing.")
                                                  .arg(listed(condition->options, &catalogue::Option::key)));
        if (const auto wrong = records::wrongWithCondition(condition->id, value, m_catalogue))
            return cells.wrong(condition->id, wrong->what);
        conditions[condition->id] = condition->isNumber ? QString::number(value.toDouble(), 'g', 15) : value;
    }
    return conditions;
}

base::Result<FindingRow> FindingRows::read(const base::CsvRow& row)
{
    if (row.cells.size() != m_header.size()) {
        const qsizetype place = std::min(row.cells.size(), m_header.size() - 1);
        return wrongAt(row.line, m_header.key(place),
                       base::said("The row has %1 cells, but %2 are needed, one for each column.")
                           .arg(row.cells.size())
                           .arg(m_header.size()));
    }
    const Cells cells{row, m_header};
    FindingRow read;
    read.line = row.line;
    auto patient = patientIn(row);
    if (!patient)
        return patient.error();
    read.patient = std::move(*patient);

    const auto day = isoDay(cells[u"date"_s]);
    if (!day)
        return cells.wrong(u"date"_s, base::said("Allowed is a date as 2024-03-01."));
    read.day = *day;

    const catalogue::Measure* measure = m_measures.value(cells[u"measure"_s]);
    if (measure == nullptr) {
        return cells.wrong(u"measure"_s, base::said("Allowed are %1; the handbook names them all.")
                                             .arg(listed(m_catalogue.measures, &catalogue::Measure::id, 8)));
    }
    auto finding = findingIn(cells, *measure, m_catalogue);
    if (!finding)
        return finding.error();
    read.finding = std::move(*finding);
    read.saysCapped = !cells[cappedColumn].isEmpty();
    const auto trial = trialIn(cells, catalogue::isNumeric(measure->kind));
    if (!trial)
        return trial.error();
    read.trial = *trial;

    auto conditions = conditionsIn(row);
    if (!conditions)
        return conditions.error();
    read.conditions = std::move(*conditions);
    takeCourse(read.conditions, *measure);
    return read;
}

} // namespace exchange
