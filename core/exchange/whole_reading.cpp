#include "core/exchange/whole_reading.h"

#include "core/base/text.h"
#include "core/catalogue/own.h"
#include "core/exchange/whole_cells.h"
#include "core/records/check.h"

#include <QSet>

#include <algorithm>
#include <cmath>
#include <map>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

using Places = QHash<QString, qsizetype>;

/// A visit among those that were read.
struct VisitPlace {
    size_t patient = 0;
    size_t visit = 0;
};

/// A file on its way into records.
class RecordsReading
{
public:
    RecordsReading(const catalogue::Catalogue& catalogue, Places places, QDate today, Faults& faults)
        : m_catalogue(catalogue), m_places(std::move(places)), m_today(today), m_faults(faults)
    {
        for (const catalogue::Condition& condition : catalogue.conditions) {
            if (const auto place = m_places.constFind(condition.id); place != m_places.cend())
                m_conditions.emplace_back(condition.id, *place);
        }
    }

    /// Takes a row of this kind; whether there is such a kind.
    bool take(const base::CsvRow& row, const QString& kind);
    /// What the rows together must be.
    void check();
    std::vector<ReadRecord> records() &&;

    /// Those that others belong to are read first, so that rows may stand in any order.
    static int turn(const QString& kind);

private:
    using Take = void (RecordsReading::*)(const WholeCells&);
    static const std::map<QString, std::pair<int, Take>>& kinds();

    void takeCatalogue(const WholeCells&) {} // read before, by ownDocumentIn
    void takeForm(const WholeCells& cells);
    void takePatient(const WholeCells& cells);
    void takeVisit(const WholeCells& cells);
    void takeFinding(const WholeCells& cells);
    void takeRedFlag(const WholeCells& cells);
    void takeWithdrawn(const WholeCells& cells);
    void takeAsked(const WholeCells& cells);
    void takeHappening(const WholeCells& cells);
    void takeTarget(const WholeCells& cells);
    void takeChoice(const WholeCells& cells);
    void takeDeclared(const WholeCells& cells);

    std::optional<size_t> ownerOf(const WholeCells& cells);
    std::optional<VisitPlace> visitOf(const WholeCells& cells);
    void agree(const WholeCells& cells, const QString& column, const QString& known) const;
    records::Conditions conditions(const WholeCells& cells) const;
    values::Value value(const WholeCells& cells, const catalogue::Measure& measure) const;
    records::Side side(const WholeCells& cells) const;
    void addId(const WholeCells& cells, const QString& id, QSet<QString>& known);
    void checkSeries(const ReadRecord& read);
    void checkHappenings(const ReadRecord& read);
    void refuse(int line, const base::Error& wrong);

    const catalogue::Catalogue& m_catalogue;
    Places m_places;
    std::vector<std::pair<QString, qsizetype>> m_conditions;
    QDate m_today;
    Faults& m_faults;
    std::vector<ReadRecord> m_records;
    QHash<QString, size_t> m_patients; ///< by their numbers in the file
    QHash<QString, VisitPlace> m_visits;
    QHash<QString, catalogue::Form> m_forms;
    QSet<QString> m_ids; ///< of patients and visits
    QSet<QString> m_recordNumbers;
};

const std::map<QString, std::pair<int, RecordsReading::Take>>& RecordsReading::kinds()
{
    static const std::map<QString, std::pair<int, Take>> all = {
        {u"catalogue"_s, {0, &RecordsReading::takeCatalogue}},
        {u"form"_s, {0, &RecordsReading::takeForm}},
        {u"patient"_s, {0, &RecordsReading::takePatient}},
        {u"visit"_s, {1, &RecordsReading::takeVisit}},
        {u"finding"_s, {2, &RecordsReading::takeFinding}},
        {u"red-flag"_s, {2, &RecordsReading::takeRedFlag}},
        {u"withdrawn"_s, {2, &RecordsReading::takeWithdrawn}},
        {u"asked"_s, {2, &RecordsReading::takeAsked}},
        {u"event"_s, {2, &RecordsReading::takeHappening}},
        {u"target"_s, {2, &RecordsReading::takeTarget}},
        {u"choice"_s, {2, &RecordsReading::takeChoice}},
        {u"declared"_s, {2, &RecordsReading::takeDeclared}}};
    return all;
}

int RecordsReading::turn(const QString& kind)
{
    const auto found = kinds().find(kind);
    return found == kinds().end() ? 0 : found->second.first;
}

bool RecordsReading::take(const base::CsvRow& row, const QString& kind)
{
    const auto found = kinds().find(kind);
    if (found == kinds().end())
        return false;
    const WholeCells cells(row, m_places, m_faults);
    m_faults.about(cells[u"patient"_s], isoDay(cells[u"date"_s]).value_or(QDate()));
    (this->*found->second.second)(cells);
    return true;
}

/// The patient a row belongs to.
std::optional<size_t> RecordsReading::ownerOf(const WholeCells& cells)
{
    const auto found = m_patients.constFind(cells[u"of"_s]);
    if (found == m_patients.cend()) {
        cells.refuse(u"of"_s, base::said("Allowed is the “no” of a patient's row."));
        return std::nullopt;
    }
    agree(cells, u"patient"_s, m_records[*found].record.patient.recordNumber);
    return *found;
}

std::optional<VisitPlace> RecordsReading::visitOf(const WholeCells& cells)
{
    const auto found = m_visits.constFind(cells[u"of"_s]);
    if (found == m_visits.cend()) {
        cells.refuse(u"of"_s, base::said("Allowed is the “no” of a visit's row."));
        return std::nullopt;
    }
    return *found;
}

/// What a row repeats for who reads it in a table must be what it belongs to.
void RecordsReading::agree(const WholeCells& cells, const QString& column, const QString& known) const
{
    if (const QString said = cells[column]; !said.isEmpty() && said != known)
        cells.refuse(column, base::said("It must be as in the row that it belongs to, or empty."));
}

void RecordsReading::addId(const WholeCells& cells, const QString& id, QSet<QString>& known)
{
    if (known.contains(id))
        cells.refuse(u"uid"_s, base::said("It stands twice; every record has one of its own."));
    known.insert(id);
}

records::Conditions RecordsReading::conditions(const WholeCells& cells) const
{
    records::Conditions conditions;
    for (const auto& [id, place] : m_conditions) {
        if (const QString value = cells.at(place); !value.isEmpty())
            conditions[id] = value;
    }
    for (const QString& id : cells[u"not_recorded"_s].split(u' ', Qt::SkipEmptyParts)) {
        if (m_catalogue.condition(id) == nullptr || conditions.contains(id))
            cells.refuse(u"not_recorded"_s,
                         base::said("Allowed are ids of conditions whose own cells are empty."));
        else
            conditions[id] = u""_s;
    }
    return conditions;
}

records::Side RecordsReading::side(const WholeCells& cells) const
{
    if (cells[u"side"_s].isEmpty())
        return records::Side::None;
    return cells.word(u"side"_s, &records::sideFromCode, u"right, left"_s).value_or(records::Side::None);
}

values::Value RecordsReading::value(const WholeCells& cells, const catalogue::Measure& measure) const
{
    const QString state = cells[u"state"_s];
    if (state != u"done") {
        const auto absence = cells.word(u"state"_s, &values::absenceFromCode,
                                        u"done, unable, not-attempted, refused, not-applicable, not-asked"_s);
        if (!cells[u"value"_s].isEmpty())
            cells.refuse(u"value"_s, base::said("Allowed beside this state is nothing."));
        return values::Missing{absence.value_or(values::Absence::NotAsked), cells[u"reason"_s]};
    }
    if (measure.kind == catalogue::Kind::Choice)
        return values::Choice{cells[u"value"_s]};
    const double number = cells.number(u"value"_s);
    if (measure.kind == catalogue::Kind::Grade) {
        if (number != std::floor(number))
            cells.refuse(u"value"_s, base::said("Allowed is the number of a step."));
        return values::Grade{int(number)};
    }
    const auto unit = values::unitFromCode(cells[u"unit"_s]);
    if (!unit || *unit != measure.unit)
        cells.refuse(u"unit"_s,
                     base::said("Allowed for this measure is “%1”.").arg(values::code(measure.unit)));
    return values::Quantity{number, measure.unit};
}

void RecordsReading::takeForm(const WholeCells& cells)
{
    const auto form = catalogue::formFrom(cells[u"words"_s]);
    if (!form)
        cells.refuse(u"words"_s, base::said("Allowed is a form as the records write it."));
    else if (m_forms.contains(cells[u"no"_s]))
        cells.refuse(u"no"_s, base::said("It stands twice; every form has one of its own."));
    else
        m_forms[cells[u"no"_s]] = *form;
}

void RecordsReading::takePatient(const WholeCells& cells)
{
    ReadRecord read;
    read.line = cells.line();
    records::Patient& patient = read.record.patient;
    patient.id.text = cells.uid(u"uid"_s);
    patient.recordNumber = cells[u"patient"_s];
    patient.family = cells[u"family"_s];
    patient.given = cells[u"given"_s];
    patient.born = cells.dayIfAny(u"born"_s);
    patient.sex = cells.word(u"sex"_s, &records::sexFromCode, u"female, male, other, unknown"_s)
                      .value_or(records::Sex::Unknown);
    patient.dominantHand = cells.word(u"hand"_s, &records::handFromCode, u"right, left, both, unknown"_s)
                               .value_or(records::Hand::Unknown);
    patient.heightCm = cells.numberIfAny(u"height_cm"_s);
    patient.weightKg = cells.numberIfAny(u"weight_kg"_s);
    patient.diagnosis = cells[u"diagnosis"_s];
    patient.population = cells[u"population"_s];
    patient.onset = cells.dayIfAny(u"onset"_s);
    patient.referrer = cells[u"referrer"_s];
    patient.generalPractitioner = cells[u"practitioner"_s];
    patient.allergies = cells[u"allergies"_s];
    patient.notes = cells[u"note"_s];
    if (const auto wrong = records::wrongWith(patient, m_catalogue, m_today))
        refuse(cells.line(), *wrong);
    if (!patient.recordNumber.isEmpty() && m_recordNumbers.contains(patient.recordNumber))
        cells.refuse(u"patient"_s, base::said("It stands twice; every patient has one of their own."));
    m_recordNumbers.insert(patient.recordNumber);
    addId(cells, patient.id.text, m_ids);
    if (cells[u"no"_s].isEmpty() || m_patients.contains(cells[u"no"_s]))
        cells.refuse(u"no"_s, base::said("Allowed is a number that no other patient has in this file."));
    m_patients[cells[u"no"_s]] = m_records.size();
    m_records.push_back(std::move(read));
}

void RecordsReading::takeVisit(const WholeCells& cells)
{
    const auto owner = ownerOf(cells);
    if (!owner)
        return;
    ReadRecord& read = m_records[*owner];
    records::Visit visit;
    visit.id.text = cells.uid(u"uid"_s);
    visit.series.text = cells.uid(u"series"_s);
    visit.version = cells.whole(u"version"_s);
    visit.patient = read.record.patient.id;
    visit.day = cells.day(u"date"_s);
    visit.state = cells.word(u"state"_s, &records::visitStateFromCode, u"draft, signed, amended"_s)
                      .value_or(records::VisitState::Draft);
    visit.form = cells[u"form"_s];
    if (const QString made = cells[u"made"_s]; !made.isEmpty()) {
        if (const auto form = m_forms.constFind(made); form != m_forms.cend())
            visit.formAsMade = *form;
        else
            cells.refuse(u"made"_s, base::said("Allowed is the “no” of a form's row, or nothing."));
    }
    visit.conditionsConfirmed = cells.flag(u"confirmed"_s);
    visit.amendmentReason = cells[u"reason"_s];
    visit.author = cells.author();
    visit.signedAt = cells.instantIfAny(u"at"_s);
    visit.conditions = conditions(cells);
    const bool isDraft = visit.state == records::VisitState::Draft;
    if (isDraft && (visit.author != records::Author() || visit.signedAt.isValid()))
        cells.refuse(u"who"_s, base::said("A draft is signed by nobody."));
    addId(cells, visit.id.text, m_ids);
    if (cells[u"no"_s].isEmpty() || m_visits.contains(cells[u"no"_s]))
        cells.refuse(u"no"_s, base::said("Allowed is a number that no other visit has in this file."));
    m_visits[cells[u"no"_s]] = {*owner, read.record.visits.size()};
    read.lines[visit.id.text] = cells.line();
    read.record.visits.push_back(std::move(visit));
}

void RecordsReading::takeFinding(const WholeCells& cells)
{
    const auto place = visitOf(cells);
    if (!place)
        return;
    records::WholeRecord& record = m_records[place->patient].record;
    records::Visit& visit = record.visits[place->visit];
    agree(cells, u"patient"_s, record.patient.recordNumber);
    agree(cells, u"date"_s, visit.day.toString(Qt::ISODate));
    const catalogue::Measure* measure = m_catalogue.measure(cells[u"measure"_s]);
    if (measure == nullptr) {
        cells.refuse(u"measure"_s,
                     base::said("Allowed is a measure of the catalogue, or of the clinic's own part "
                                "of it in this file."));
        return;
    }
    records::Finding finding;
    finding.measure = measure->id;
    finding.side = side(cells);
    finding.value = value(cells, *measure);
    cells.numbers(u"trials"_s, [&](int number, double trial) { records::addTrial(finding, number, trial); });
    cells.numbers(u"taps"_s, [&](int, double tap) { finding.taps.push_back(tap); });
    finding.capReached = cells.flag(u"capped"_s);
    finding.signs = cells[u"signs"_s].split(u'\n', Qt::SkipEmptyParts);
    finding.note = cells[u"note"_s];
    finding.exceptions = conditions(cells);
    if (const auto wrong = records::wrongWith(finding, m_catalogue))
        cells.refuse(u"value"_s, wrong->what);
    visit.findings.push_back(std::move(finding));
}

void RecordsReading::takeRedFlag(const WholeCells& cells)
{
    const auto place = visitOf(cells);
    if (!place)
        return;
    records::RedFlagAnswer answer;
    answer.isYes = cells.flag(u"value"_s);
    if (cells[u"value"_s].isEmpty())
        cells.refuse(u"value"_s, base::said("Allowed are %1.").arg(u"yes, no"_s));
    if (const QString action = cells[u"words"_s]; !action.isEmpty()) {
        const QTime time = QTime::fromString(cells[u"time"_s], u"HH:mm"_s);
        if (!time.isValid())
            cells.refuse(u"time"_s, base::said("Allowed is a time as 14:05."));
        answer.acknowledged = {action, cells.day(u"date"_s), time};
    }
    records::RedFlags& flags = m_records[place->patient].record.visits[place->visit].redFlags;
    if (!flags.emplace(cells[u"flag"_s], answer).second)
        cells.refuse(u"flag"_s, base::said("It is answered twice at this visit."));
}

void RecordsReading::takeWithdrawn(const WholeCells& cells)
{
    const auto place = visitOf(cells);
    if (!place)
        return;
    const records::Withdrawal withdrawal{cells[u"reason"_s], cells.author(), cells.instant(u"at"_s)};
    if (withdrawal.reason.isEmpty())
        cells.refuse(u"reason"_s, base::said("Say why the visit was entered in error."));
    if (withdrawal.author.name.isEmpty())
        cells.refuse(u"who"_s, base::said("A visit is withdrawn by someone; the author's name is missing."));
    std::vector<records::Visit>& visits = m_records[place->patient].record.visits;
    const records::VisitId series = visits[place->visit].series;
    for (records::Visit& visit : visits) {
        if (visit.series != series)
            continue;
        if (visit.withdrawn)
            cells.refuse(u"of"_s, base::said("This visit was marked as entered in error already."));
        visit.withdrawn = withdrawal;
    }
}

/// Who did it; it must be said.
QString doer(const WholeCells& cells)
{
    const QString who = cells[u"who"_s];
    if (who.isEmpty())
        cells.refuse(u"who"_s, base::said("Say who it was."));
    return who;
}

void RecordsReading::takeAsked(const WholeCells& cells)
{
    const auto place = visitOf(cells);
    if (!place)
        return;
    records::WholeRecord& record = m_records[place->patient].record;
    const records::VisitId series = record.visits[place->visit].series;
    if (std::ranges::find(record.asked, series, &records::Asked::visit) != record.asked.end())
        cells.refuse(u"of"_s, base::said("It is said twice that this was asked at the visit."));
    record.asked.push_back({series, doer(cells), cells.instant(u"at"_s)});
}

void RecordsReading::takeHappening(const WholeCells& cells)
{
    const auto owner = ownerOf(cells);
    if (!owner)
        return;
    ReadRecord& read = m_records[*owner];
    records::Happening happening;
    happening.id.text = cells.uid(u"uid"_s);
    happening.version = cells.whole(u"version"_s);
    happening.patient = read.record.patient.id;
    QStringList known;
    for (int kind = 0; kind <= int(records::HappeningKind::Other); ++kind)
        known += code(records::HappeningKind(kind));
    happening.kind = cells.word(u"kind"_s, &records::happeningKindFromCode, known.join(u", "_s))
                         .value_or(records::HappeningKind::Other);
    happening.from = cells.day(u"date"_s);
    happening.until = cells.dayIfAny(u"until"_s);
    happening.injury =
        cells
            .word(
                u"injury"_s, [](const QString& text) { return records::injuryFromCode(text); }, u"yes, no"_s)
            .value_or(records::Injury::NotStated);
    happening.words = cells[u"words"_s];
    happening.takenBackFor = cells[u"reason"_s];
    happening.who = doer(cells);
    happening.enteredAt = cells.instant(u"at"_s);
    if (const auto wrong = records::wrongWith(happening, read.record.patient, m_today))
        refuse(cells.line(), *wrong);
    read.lines[happening.id.text] = cells.line();
    read.record.happenings.push_back(std::move(happening));
}

void RecordsReading::takeTarget(const WholeCells& cells)
{
    const auto owner = ownerOf(cells);
    if (!owner)
        return;
    records::WholeRecord& record = m_records[*owner].record;
    records::Target target;
    target.measure = cells[u"measure"_s];
    target.side = side(cells);
    target.value = cells.number(u"value"_s);
    target.by = cells.dayIfAny(u"until"_s);
    target.words = cells[u"words"_s];
    target.agreedOn = cells.day(u"date"_s);
    target.droppedFor = cells[u"reason"_s];
    target.who = doer(cells);
    target.enteredAt = cells.instant(u"at"_s);
    if (const auto wrong = records::wrongWith(target, record.patient, m_catalogue, m_today))
        refuse(cells.line(), *wrong);
    record.targets.push_back(std::move(target));
}

/// Why something was chosen or declared; it must be said.
QString reasonGiven(const WholeCells& cells)
{
    const QString said = cells[u"reason"_s];
    const auto wrong = records::wrongWithReason(said);
    if (wrong || said.isEmpty())
        cells.refuse(u"reason"_s, wrong ? wrong->what : base::said("A reason is needed."));
    return said;
}

void RecordsReading::takeChoice(const WholeCells& cells)
{
    const auto owner = ownerOf(cells);
    if (!owner)
        return;
    if (m_catalogue.measure(cells[u"measure"_s]) == nullptr)
        cells.refuse(u"measure"_s,
                     base::said("Allowed is a measure of the catalogue, or of the clinic's own part "
                                "of it in this file."));
    m_records[*owner].record.patient.choices.push_back({cells[u"measure"_s], cells[u"threshold"_s],
                                                        reasonGiven(cells), doer(cells),
                                                        cells.instant(u"at"_s)});
}

void RecordsReading::takeDeclared(const WholeCells& cells)
{
    const auto owner = ownerOf(cells);
    if (!owner)
        return;
    records::WholeRecord& record = m_records[*owner].record;
    const records::DeclaredEqual word{cells[u"measure"_s],     {cells.uid(u"earlier"_s)},
                                      {cells.uid(u"later"_s)}, cells.flag(u"taken_back"_s),
                                      reasonGiven(cells),      doer(cells),
                                      cells.instant(u"at"_s)};
    const auto isThere = [&](const records::VisitId& series) {
        return std::ranges::find(record.visits, series, &records::Visit::series) != record.visits.end();
    };
    if (!isThere(word.earlier) || !isThere(word.later) || word.earlier == word.later)
        cells.refuse(u"earlier"_s, base::said("A declaration needs two visits of this patient."));
    record.patient.declared.push_back(word);
}

void RecordsReading::refuse(int line, const base::Error& wrong)
{
    m_faults.add(line, wrongAt(m_faults.place(line), wrong));
}

/// Versions follow one another from the first, each signed before the next, and only the last may be a draft.
void RecordsReading::checkSeries(const ReadRecord& read)
{
    std::map<records::VisitId, std::vector<const records::Visit*>> series;
    for (const records::Visit& visit : read.record.visits)
        series[visit.series].push_back(&visit);
    for (auto& [id, versions] : series) {
        std::ranges::sort(versions, {}, &records::Visit::version);
        for (size_t i = 0; i < versions.size(); ++i) {
            const records::Visit& visit = *versions[i];
            const int line = read.lines.value(visit.id.text);
            const bool isFirst = i == 0;
            const bool isLast = i + 1 == versions.size();
            const auto wrongIn = [&](const QString& column, const base::Message& allowed) {
                m_faults.add(line, wrongAt(m_faults.place(line), column, allowed));
            };
            m_faults.about(read.record.patient.recordNumber, visit.day);
            if (visit.version != int(i) + 1 || (visit.id == id) != isFirst)
                wrongIn(u"version"_s,
                        base::said("The versions of a visit are numbered from 1 without a gap, and "
                                   "its series is the uid of the first."));
            else if (visit.amendmentReason.isEmpty() != isFirst)
                wrongIn(u"reason"_s, base::said("Every version but the first says why it was made."));
            else if (visit.state == records::VisitState::Draft && (!isLast || visit.withdrawn))
                wrongIn(u"state"_s,
                        base::said("Only the last version of a visit that counts may be a draft."));
            else if (visit.state == (isFirst ? records::VisitState::Amended : records::VisitState::Signed))
                wrongIn(u"state"_s, base::said("The first version is signed, the others are amended."));
            else if (const auto wrong = records::wrongWith(visit, read.record.patient, m_catalogue, m_today))
                refuse(line, *wrong);
        }
    }
}

void RecordsReading::checkHappenings(const ReadRecord& read)
{
    std::map<records::HappeningId, std::vector<const records::Happening*>> events;
    for (const records::Happening& happening : read.record.happenings)
        events[happening.id].push_back(&happening);
    for (auto& [id, versions] : events) {
        std::ranges::sort(versions, {}, &records::Happening::version);
        const int line = read.lines.value(id.text);
        for (size_t i = 0; i < versions.size(); ++i) {
            const bool isLast = i + 1 == versions.size();
            if (versions[i]->version != int(i) + 1 || (!isLast && !versions[i]->takenBackFor.isEmpty()))
                m_faults.add(line,
                             wrongAt(m_faults.place(line), u"version"_s,
                                     base::said("The versions of an event are numbered from 1 without a "
                                                "gap, and what took it back is the last.")));
        }
    }
}

void RecordsReading::check()
{
    for (const ReadRecord& read : m_records) {
        checkSeries(read);
        checkHappenings(read);
    }
}

std::vector<ReadRecord> RecordsReading::records() &&
{
    return std::move(m_records);
}

} // namespace

base::Result<QByteArray> ownDocumentIn(const std::vector<base::CsvRow>& rows)
{
    const auto place = [&](const QString& column) {
        const QStringList& cells = rows.front().cells;
        const auto found =
            std::ranges::find_if(cells, [&](const QString& cell) { return base::tidied(cell) == column; });
        return found == cells.end() ? -1 : found - cells.begin();
    };
    const qsizetype kind = rows.empty() ? -1 : place(rowColumn);
    const qsizetype words = kind < 0 ? -1 : place(u"words"_s);
    QByteArray document;
    for (const base::CsvRow& row : rows) {
        if (kind < 0 || words < 0 || row.cells.value(kind) != u"catalogue")
            continue;
        if (!document.isEmpty())
            return wrongAt(row.line, rowColumn,
                           base::said("The clinic's own catalogue stands once in the file."));
        document = unguarded(row.cells.value(words)).toUtf8();
    }
    return document;
}

base::Result<std::vector<ReadRecord>> recordsFrom(const std::vector<base::CsvRow>& rows,
                                                  const catalogue::Catalogue& catalogue, QDate today,
                                                  Faults& faults, const records::Progress& progress)
{
    const auto header = wholeHeaderFrom(rows.front(), catalogue);
    if (!header)
        return header.error();
    RecordsReading reading(catalogue, *header, today, faults);
    const qsizetype kindPlace = (*header)[rowColumn];
    constexpr int turns = 3;
    constexpr size_t between = 500;
    for (int turn = 0; turn < turns; ++turn) {
        for (size_t i = 1; i < rows.size(); ++i) {
            const size_t done = size_t(turn) * rows.size() + i;
            if (progress && i % between == 0 && !progress(int(100 * done / (turns * rows.size()))))
                return base::stopped();
            const base::CsvRow& row = rows[i];
            const QString kind = row.cells.value(kindPlace);
            if (row.cells.size() != header->size()) {
                if (turn == 0)
                    faults.add(
                        row.line,
                        wrongAt(row.line, rowColumn,
                                base::said("The row has %1 cells, but %2 are needed, one for each column.")
                                    .arg(row.cells.size())
                                    .arg(header->size())));
                continue;
            }
            if (RecordsReading::turn(kind) == turn && !reading.take(row, kind))
                faults.add(
                    row.line,
                    wrongAt(row.line, rowColumn,
                            base::said("Allowed are %1.")
                                .arg(u"catalogue, form, patient, visit, finding, red-flag, withdrawn, asked, "
                                     "event, target, choice, declared"_s)));
        }
    }
    reading.check();
    return std::move(reading).records();
}

} // namespace exchange
