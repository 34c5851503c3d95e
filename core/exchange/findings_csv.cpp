#include "core/exchange/findings_csv.h"

#include "core/base/text.h"
#include "core/exchange/agreement.h"
#include "core/exchange/findings_row.h"
#include "core/exchange/whole_merge.h"
#include "core/records/check.h"
#include "core/records/visit_form.h"

#include <QSet>

#include <algorithm>
#include <map>
#include <set>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

using Rows = std::vector<const FindingRow*>;
using Trials = std::map<int, const FindingRow*>;

/// The measures of the catalogue in its order, found by their ids.
using MeasurePlaces = QHash<QString, int>;

/// The first column in which two rows for the same trial differ; empty when they say the same.
QString differingColumn(const FindingRow& a, const FindingRow& b, const QStringList& columns)
{
    if (values::stateCode(a.finding.value) != values::stateCode(b.finding.value))
        return u"state"_s;
    const auto* missing = std::get_if<values::Missing>(&a.finding.value);
    if (a.finding.note != b.finding.note || (missing != nullptr && a.finding.value != b.finding.value))
        return u"reason"_s;
    if (a.finding.value != b.finding.value)
        return u"value"_s;
    if (a.finding.capReached != b.finding.capReached)
        return cappedColumn;
    return differingCondition(a.conditions, b.conditions, columns);
}

/// The rows of one finding by trial, each trial once; empty where something is wrong with them.
Trials trialsIn(const Rows& rows, const QStringList& columns, Faults& faults)
{
    Trials trials;
    const qint64 before = faults.count();
    for (const FindingRow* row : rows) {
        const auto [place, isFirst] = trials.try_emplace(row->trial, row);
        const QString column = isFirst ? QString() : differingColumn(*place->second, *row, columns);
        if (!column.isEmpty()) {
            faults.add(
                row->line,
                wrongAt(
                    row->line, column,
                    base::said("It must be as in line %1, the same patient, date, measure, side and trial.")
                        .arg(place->second->line)));
        }
    }
    const FindingRow& first = *trials.begin()->second;
    int next = first.trial;
    for (const auto& [trial, row] : trials) {
        const QString column = values::stateCode(row->finding.value) != values::stateCode(first.finding.value)
                                   ? u"state"_s
                                   : differingCondition(first.conditions, row->conditions, columns);
        if (trial != next)
            faults.add(
                row->line,
                wrongAt(row->line, u"trial"_s,
                        base::said("Trials are numbered without a gap; %1 is missing.").arg(trial - 1)));
        else if (!column.isEmpty())
            faults.add(row->line, wrongAt(row->line, column,
                                          base::said("It must be the same for all trials of one finding.")));
        next = trial + 1;
    }
    return faults.count() == before ? trials : Trials();
}

records::Finding gathered(const Trials& trials, const catalogue::Measure& measure)
{
    records::Finding finding = trials.begin()->second->finding;
    QStringList notes;
    finding.trials.clear();
    for (const auto& [trial, row] : trials) {
        finding.trials.insert(finding.trials.end(), row->finding.trials.begin(), row->finding.trials.end());
        if (!row->finding.note.isEmpty() && !notes.contains(row->finding.note))
            notes += row->finding.note;
    }
    finding.note = notes.join(u"; "_s);
    if (!finding.trials.empty()) {
        finding.value = records::valueOfTrials(finding.trials, measure);
        finding.capReached =
            std::ranges::any_of(trials, [](const auto& trial) { return trial.second->finding.capReached; });
    }
    return finding;
}

/// What the visit's rows name first for each condition that is not a single test's own.
records::Conditions firstNamed(const Rows& rows, const catalogue::Catalogue& catalogue)
{
    records::Conditions conditions;
    for (const FindingRow* row : rows)
        for (const auto& [id, value] : row->conditions.asKeyValueRange()) {
            if (!conditions.contains(id))
                conditions[id] = value;
        }
    for (const catalogue::Condition& condition : catalogue.conditions) {
        if (condition.isOfTest)
            conditions.remove(condition.id);
    }
    return conditions;
}

/// Nothing where something is wrong with it.
std::optional<ImportedVisit> visitIn(const Rows& rows, const records::Patient& patient,
                                     const QStringList& columns, const MeasurePlaces& places,
                                     const catalogue::Catalogue& catalogue, QDate today, Faults& faults)
{
    ImportedVisit imported;
    imported.conditions = columns;
    records::Visit& visit = imported.visit;
    visit.day = rows.front()->day;
    const qint64 before = faults.count();
    faults.about(patient.recordNumber, visit.day);
    if (const auto wrong = records::wrongWith(visit, patient, catalogue, today))
        faults.add(rows.front()->line, wrongAt(rows.front()->line, u"date"_s, wrong->what));
    visit.conditions = firstNamed(rows, catalogue);
    visit.conditionsConfirmed = true;

    std::map<std::pair<int, records::Side>, Rows> findings; ///< in the catalogue's order
    for (const FindingRow* row : rows)
        findings[{places.value(row->finding.measure), row->finding.side}].push_back(row);
    for (const auto& [which, ofFinding] : findings) {
        const Trials trials = trialsIn(ofFinding, columns, faults);
        if (trials.empty())
            continue;
        records::Finding finding = gathered(trials, catalogue.measures[size_t(which.first)]);
        finding.exceptions = exceptionsOn(visit.conditions, trials.begin()->second->conditions, columns);
        Origin origin{trials.begin()->first, {}};
        for (const auto& [trial, row] : trials) {
            origin.places.push_back(lineOf(row->line));
            origin.saysCapped = origin.saysCapped || row->saysCapped;
        }
        const Place& place = origin.places.front();
        if (const auto wrong = records::wrongWith(finding, catalogue))
            faults.add(place, wrongAt(place, u"value"_s, wrong->what));
        visit.findings.push_back(finding);
        imported.origins.push_back(origin);
    }
    if (const catalogue::Form* form = records::formFitting(visit, catalogue))
        visit.form = form->id;
    if (faults.count() != before)
        return std::nullopt;
    for (size_t i = 0; i < visit.findings.size(); ++i) {
        const Place& place = imported.origins[i].places.front();
        if (const auto wrong = records::wrongWithTotal(visit, visit.findings[i].measure, catalogue))
            faults.add(place, wrongAt(place, u"value"_s, wrong->what));
    }
    return faults.count() == before ? std::optional(imported) : std::nullopt;
}

/// The rows of one patient, and the days of those that cannot be taken.
struct RowsOfPatient {
    std::vector<FindingRow> rows;
    std::set<QDate> faulty;
};

ImportedPatient patientIn(const RowsOfPatient& read, const QStringList& columns, const MeasurePlaces& places,
                          const catalogue::Catalogue& catalogue, QDate today, Faults& faults)
{
    ImportedPatient imported;
    imported.place = lineOf(read.rows.front().line);
    imported.patient = read.rows.front().patient;
    std::map<QDate, Rows> days;
    for (const FindingRow& row : read.rows) {
        faults.about(row.patient.recordNumber, row.day);
        if (const QString column = takeIdentity(imported.patient, row.patient); !column.isEmpty())
            faults.add(row.line, wrongAt(row.line, column,
                                         base::said("It must be the same in all rows of one patient.")));
        days[row.day].push_back(&row);
    }
    if (const auto wrong = records::wrongWith(imported.patient, catalogue, today)) {
        faults.about(imported.patient.recordNumber, read.rows.front().day);
        if (read.faulty.empty()) // else what is missing may stand in a row that cannot be taken
            faults.add(imported.place, wrongAt(imported.place, u"born"_s, wrong->what));
        return imported;
    }
    for (const auto& [day, ofDay] : days) {
        if (read.faulty.contains(day))
            continue;
        if (auto visit = visitIn(ofDay, imported.patient, columns, places, catalogue, today, faults))
            imported.visits.push_back(std::move(*visit));
    }
    return imported;
}

/// The rows by patient, in the order of the file. A row that cannot be taken leaves out its visit, or its
/// patient where its day cannot be read, so that what lacks there is not blamed on the next row.
base::Result<std::vector<RowsOfPatient>> readRows(std::vector<base::CsvRow> rows,
                                                  const QHash<QString, qsizetype>& header,
                                                  const catalogue::Catalogue& catalogue, Faults& faults,
                                                  const records::Progress& progress)
{
    std::vector<RowsOfPatient> byPatient;
    QHash<QString, size_t> places;
    QSet<QString> faulty;
    QHash<QString, std::set<QDate>> faultyDays;
    FindingRows reading(header, catalogue);
    constexpr size_t between = 500;
    for (size_t i = 1; i < rows.size(); ++i) {
        if (progress && i % between == 0 && !progress(int(100 * i / rows.size())))
            return base::stopped();
        auto row = reading.read(rows[i]);
        if (!row) {
            const QString patient = base::tidied(rows[i].cells.value(header[u"patient"_s]));
            const auto day = isoDay(base::tidied(rows[i].cells.value(header[u"date"_s])));
            faults.about(patient, day.value_or(QDate()));
            faults.add(rows[i].line, row.error());
            if (day)
                faultyDays[patient].insert(*day);
            else
                faulty += patient;
            continue;
        }
        rows[i].cells.clear(); // a large file is not held twice
        const size_t place = places.value(row->patient.recordNumber, byPatient.size());
        if (place == byPatient.size()) {
            places[row->patient.recordNumber] = place;
            byPatient.emplace_back();
        }
        byPatient[place].rows.push_back(std::move(*row));
    }
    const auto numberOf = [](const RowsOfPatient& read) { return read.rows.front().patient.recordNumber; };
    std::erase_if(byPatient, [&](const RowsOfPatient& read) { return faulty.contains(numberOf(read)); });
    for (RowsOfPatient& read : byPatient)
        read.faulty = faultyDays.value(numberOf(read));
    return byPatient;
}

} // namespace

base::Result<FindingsFile> findingsFrom(const QByteArray& bytes, const catalogue::Catalogue& catalogue,
                                        QDate today, const records::Progress& progress,
                                        const OwnPart& ownPart)
{
    if (bytes.size() > largestFindingsFile)
        return base::Error{base::ErrorKind::Invalid,
                           base::said("The file is larger than 100 MB, the most that is allowed."),
                           {}};
    auto rows = base::csvRows(bytes);
    if (!rows)
        return rows.error();
    if (rows->empty())
        return wrongAt(1, u"patient"_s,
                       base::said("The file must begin with a header that names its columns."));
    if (isOfWholeRecords(rows->front()))
        return wholeFileFrom(*rows, catalogue, today, progress, ownPart);
    const auto header = headerFrom(rows->front(), catalogue);
    if (!header)
        return header.error();

    FindingsFile file;
    const auto byPatient = readRows(std::move(*rows), *header, catalogue, file.faults, progress);
    if (!byPatient)
        return byPatient.error();

    QSet<QString> said; // of what has no column: a course that an older file gives as a distance
    for (const RowsOfPatient& read : *byPatient) {
        for (const FindingRow& row : read.rows) {
            for (const auto& [id, value] : row.conditions.asKeyValueRange())
                said.insert(id);
        }
    }
    QStringList columns = conditionColumns(catalogue);
    columns.removeIf(
        [&](const QString& column) { return !header->contains(column) && !said.contains(column); });
    MeasurePlaces places;
    for (const catalogue::Measure& measure : catalogue.measures)
        places.insert(measure.id, int(places.size()));
    file.patients.reserve(byPatient->size());
    for (const RowsOfPatient& read : *byPatient)
        file.patients.push_back(patientIn(read, columns, places, catalogue, today, file.faults));
    return file;
}

base::Result<std::vector<ImportedPatient>> patientsFromCsv(const QByteArray& bytes,
                                                           const catalogue::Catalogue& catalogue, QDate today)
{
    auto file = findingsFrom(bytes, catalogue, today);
    if (!file)
        return file.error();
    if (!file->faults.isNone())
        return file->faults.asOne();
    return std::move(file->patients);
}

} // namespace exchange
