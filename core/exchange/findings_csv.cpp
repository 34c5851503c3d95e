#include "core/exchange/findings_csv.h"

#include "core/base/text.h"
#include "core/exchange/agreement.h"
#include "core/exchange/findings_row.h"
#include "core/records/check.h"
#include "core/records/visit_form.h"

#include <QSet>

#include <algorithm>
#include <map>

namespace exchange
{

using namespace Qt::StringLiterals;

namespace
{

using Rows = std::vector<FindingRow>;

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

/// The rows of one finding by trial, each trial once.
base::Result<std::map<int, FindingRow>> trialsIn(const Rows& rows, const QStringList& columns)
{
    std::map<int, FindingRow> trials;
    for (const FindingRow& row : rows) {
        const auto [place, isFirst] = trials.try_emplace(row.trial, row);
        const QString column = isFirst ? QString() : differingColumn(place->second, row, columns);
        if (!column.isEmpty()) {
            return wrongAt(
                row.line, column,
                base::said("It must be as in line %1, the same patient, date, measure, side and trial.")
                    .arg(place->second.line));
        }
    }
    const FindingRow* before = nullptr;
    for (const auto& [trial, row] : trials) {
        if (before != nullptr && trial != before->trial + 1)
            return wrongAt(row.line, u"trial"_s,
                           base::said("Trials are numbered without a gap; %1 is missing.").arg(trial - 1));
        const FindingRow& first = trials.begin()->second;
        const QString column = values::stateCode(row.finding.value) != values::stateCode(first.finding.value)
                                   ? u"state"_s
                                   : differingCondition(first.conditions, row.conditions, columns);
        if (!column.isEmpty())
            return wrongAt(row.line, column,
                           base::said("It must be the same for all trials of one finding."));
        before = &row;
    }
    return trials;
}

records::Finding gathered(const std::map<int, FindingRow>& trials, const catalogue::Measure& measure)
{
    records::Finding finding = trials.begin()->second.finding;
    QStringList notes;
    finding.trials.clear();
    for (const auto& [trial, row] : trials) {
        finding.trials.insert(finding.trials.end(), row.finding.trials.begin(), row.finding.trials.end());
        if (!row.finding.note.isEmpty() && !notes.contains(row.finding.note))
            notes += row.finding.note;
    }
    finding.note = notes.join(u"; "_s);
    if (!finding.trials.empty()) {
        finding.value = records::valueOfTrials(finding.trials, measure);
        finding.capReached =
            std::ranges::any_of(trials, [](const auto& trial) { return trial.second.finding.capReached; });
    }
    return finding;
}

/// What the visit's rows name first for each condition that is not a single test's own.
records::Conditions firstNamed(const Rows& rows, const catalogue::Catalogue& catalogue)
{
    records::Conditions conditions;
    for (const FindingRow& row : rows)
        for (const auto& [id, value] : row.conditions.asKeyValueRange()) {
            if (!conditions.contains(id))
                conditions[id] = value;
        }
    for (const catalogue::Condition& condition : catalogue.conditions) {
        if (condition.isOfTest)
            conditions.remove(condition.id);
    }
    return conditions;
}

base::Result<ImportedVisit> visitIn(const Rows& rows, const records::Patient& patient,
                                    const QStringList& columns, const catalogue::Catalogue& catalogue,
                                    QDate today)
{
    ImportedVisit imported;
    imported.conditions = columns;
    records::Visit& visit = imported.visit;
    visit.day = rows.front().day;
    if (const auto wrong = records::wrongWith(visit, patient, catalogue, today))
        return wrongAt(rows.front().line, u"date"_s, wrong->what);
    visit.conditions = firstNamed(rows, catalogue);
    visit.conditionsConfirmed = true;

    std::map<std::pair<QString, records::Side>, Rows> findings;
    for (const FindingRow& row : rows)
        findings[{row.finding.measure, row.finding.side}].push_back(row);
    for (const catalogue::Measure& measure : catalogue.measures) {
        for (const records::Side side : {records::Side::None, records::Side::Right, records::Side::Left}) {
            const auto found = findings.find({measure.id, side});
            if (found == findings.end())
                continue;
            const auto trials = trialsIn(found->second, columns);
            if (!trials)
                return trials.error();
            records::Finding finding = gathered(*trials, measure);
            finding.exceptions = exceptionsOn(visit.conditions, trials->begin()->second.conditions, columns);
            if (const auto wrong = records::wrongWith(finding, catalogue))
                return wrongAt(trials->begin()->second.line, u"value"_s, wrong->what);
            Origin origin{trials->begin()->first, {}};
            for (const auto& [trial, row] : *trials) {
                origin.places.push_back(lineOf(row.line));
                origin.saysCapped = origin.saysCapped || row.saysCapped;
            }
            visit.findings.push_back(finding);
            imported.origins.push_back(origin);
        }
    }
    if (const catalogue::Form* form = records::formFitting(visit, catalogue))
        visit.form = form->id;
    for (size_t i = 0; i < visit.findings.size(); ++i) {
        if (const auto wrong = records::wrongWithTotal(visit, visit.findings[i].measure, catalogue))
            return wrongAt(imported.origins[i].places.front(), u"value"_s, wrong->what);
    }
    return imported;
}

/// What is wrong is added to the errors, one of each visit.
ImportedPatient patientIn(const Rows& rows, const QStringList& columns, const catalogue::Catalogue& catalogue,
                          QDate today, std::vector<base::Error>& errors)
{
    ImportedPatient imported;
    imported.place = lineOf(rows.front().line);
    imported.patient = rows.front().patient;
    std::map<QDate, Rows> days;
    for (const FindingRow& row : rows) {
        if (const QString column = takeIdentity(imported.patient, row.patient); !column.isEmpty())
            errors.push_back(
                wrongAt(row.line, column, base::said("It must be the same in all rows of one patient.")));
        days[row.day].push_back(row);
    }
    if (const auto wrong = records::wrongWith(imported.patient, catalogue, today)) {
        errors.push_back(wrongAt(imported.place, u"born"_s, wrong->what));
        return imported;
    }
    for (const auto& [day, ofDay] : days) {
        auto visit = visitIn(ofDay, imported.patient, columns, catalogue, today);
        if (visit)
            imported.visits.push_back(std::move(*visit));
        else
            errors.push_back(visit.error());
    }
    return imported;
}

/// The rows by patient, in the order of the file. What is wrong is added to the errors, and the patient whose
/// row it is left out, so that a row that lacks is not blamed on the next.
std::vector<Rows> readRows(std::vector<base::CsvRow> rows, const QHash<QString, qsizetype>& header,
                           const catalogue::Catalogue& catalogue, std::vector<base::Error>& errors)
{
    std::vector<Rows> byPatient;
    QHash<QString, size_t> places;
    QSet<QString> faulty;
    for (size_t i = 1; i < rows.size(); ++i) {
        auto row = findingRow(rows[i], header, catalogue);
        if (!row) {
            errors.push_back(row.error());
            faulty += base::tidied(rows[i].cells.value(header[u"patient"_s]));
            continue;
        }
        rows[i].cells.clear(); // a large file is not held twice
        const size_t place = places.value(row->patient.recordNumber, byPatient.size());
        if (place == byPatient.size()) {
            places[row->patient.recordNumber] = place;
            byPatient.emplace_back();
        }
        byPatient[place].push_back(std::move(*row));
    }
    std::erase_if(byPatient, [&](const Rows& ofPatient) {
        return faulty.contains(ofPatient.front().patient.recordNumber);
    });
    return byPatient;
}

} // namespace

base::Result<std::vector<ImportedPatient>> patientsFromCsv(const QByteArray& bytes,
                                                           const catalogue::Catalogue& catalogue, QDate today)
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
    const auto header = headerFrom(rows->front(), catalogue);
    if (!header)
        return header.error();

    std::vector<base::Error> errors;
    const std::vector<Rows> byPatient = readRows(std::move(*rows), *header, catalogue, errors);

    const auto isSaid = [&](const QString& column) {
        return header->contains(column) || std::ranges::any_of(byPatient, [&](const Rows& ofPatient) {
                   return std::ranges::any_of(
                       ofPatient, [&](const FindingRow& row) { return row.conditions.contains(column); });
               });
    };
    QStringList columns = conditionColumns(catalogue);
    columns.removeIf([&](const QString& column) { return !isSaid(column); });
    std::vector<ImportedPatient> patients;
    patients.reserve(byPatient.size());
    for (const Rows& ofPatient : byPatient)
        patients.push_back(patientIn(ofPatient, columns, catalogue, today, errors));
    if (!errors.empty())
        return oneOf(errors);
    return patients;
}

} // namespace exchange
