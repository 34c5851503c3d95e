#include "core/fhir/foreign.h"

#include "core/base/text.h"
#include "core/exchange/columns.h"
#include "core/fhir/codes.h"
#include "core/fhir/rows.h"
#include "core/records/check.h"
#include "core/records/visit_form.h"

#include <QHash>
#include <QJsonArray>

#include <algorithm>
#include <map>
#include <tuple>

namespace fhir
{

using namespace Qt::StringLiterals;

namespace
{

/// Whether the code is of the unity, which a note in braces does not change (UCUM, ucum.org/ucum, on
/// curly braces; from memory).
bool isUnity(const QString& ucum)
{
    return ucum.isEmpty() || ucum == u"1" ||
           (ucum.startsWith(u'{') && ucum.endsWith(u'}') && ucum.count(u'{') == 1);
}

/// The day of a date or of an instant with its own zone; invalid where no day is said.
QDate dayOf(const QString& written)
{
    constexpr int date = 10;
    const bool isWhole = written.size() == date || (written.size() > date && written.at(date) == u'T');
    return isWhole ? exchange::isoDay(written.left(date)).value_or(QDate()) : QDate();
}

/// The one record number among the identifiers: ours, the one marked as such, or the only one there is.
/// MR: http://terminology.hl7.org/CodeSystem/v2-0203, medical record number (from memory).
QString numberOf(const QJsonObject& patient, const Parts& parts)
{
    const std::vector<QJsonObject> identifiers = parts.objects(patient, "identifier");
    QStringList marked;
    for (const QJsonObject& identifier : identifiers) {
        if (parts.text(identifier, "system") == numberSystem)
            return parts.text(identifier, "value");
        if (parts.code(identifier, "type", u"http://terminology.hl7.org/CodeSystem/v2-0203"_s) == u"MR")
            marked += parts.text(identifier, "value");
    }
    if (!marked.isEmpty())
        return marked.size() == 1 ? marked.front() : QString();
    return identifiers.size() == 1 ? parts.text(identifiers.front(), "value") : QString();
}

/// What one Observation says, and where.
struct Told {
    const Entry* entry = nullptr;
    records::Finding finding;
};

class Foreign
{
public:
    Foreign(const catalogue::Catalogue& catalogue, QDate today) : m_catalogue(catalogue), m_today(today) {}

    exchange::FindingsFile taken(const std::vector<Entry>& entries)
    {
        for (const Entry& entry : entries) {
            if (entry.type() == u"Patient")
                takePatient(entry);
        }
        for (const Entry& entry : entries) {
            if (entry.type() == u"Observation")
                takeObservation(entry);
            else if (entry.type() != u"Patient")
                leave(entry, {});
        }
        for (size_t place = 0; place < m_file.patients.size(); ++place)
            makeVisits(place);
        return std::move(m_file);
    }

private:
    void leave(const Entry& entry, const base::Message& why)
    {
        exchange::Faults nobody; // what is left out is named as far as it can be
        const Parts parts(entry.number, nobody);
        leaveOut(m_file.leftOut, entry.type(),
                 parts.text(parts.first(parts.object(entry.resource, "code"), "coding"), "code"), why);
    }

    void takePatient(const Entry& entry)
    {
        const Parts parts(entry.number, m_file.faults);
        exchange::ImportedPatient read;
        read.place = exchange::entryOf(entry.number);
        records::Patient& patient = read.patient;
        patient.recordNumber = base::tidied(numberOf(entry.resource, parts));
        if (patient.recordNumber.isEmpty()) {
            leave(entry, base::said("It has no record number, or several."));
            return;
        }
        const QJsonObject name = parts.first(entry.resource, "name");
        patient.family = base::tidied(parts.text(name, "family"));
        QStringList given;
        for (const QJsonValue part : name[u"given"_s].toArray())
            given += base::tidied(part.toString());
        patient.given = given.join(u' ');
        patient.born = exchange::isoDay(parts.text(entry.resource, "birthDate"));
        patient.sex =
            records::sexFromCode(parts.text(entry.resource, "gender")).value_or(records::Sex::Unknown);
        const bool isKnown =
            std::ranges::any_of(m_file.patients, [&](const exchange::ImportedPatient& other) {
                return other.patient.recordNumber == patient.recordNumber;
            });
        m_file.faults.about(patient.recordNumber, {});
        if (isKnown)
            parts.refuse(u"identifier"_s, base::said("It stands twice; every patient has one of their own."));
        else if (const auto wrong = records::wrongWith(patient, m_catalogue, m_today))
            m_file.faults.add(read.place, exchange::wrongAt(read.place, *wrong));
        for (const QString& url : {entry.url, u"Patient/"_s + entry.id(), u"urn:uuid:"_s + entry.id()}) {
            if (!url.isEmpty())
                m_places[url] = m_file.patients.size();
        }
        m_file.patients.push_back(std::move(read));
        m_told.emplace_back();
    }

    /// The measure its codes name; nullptr where none is known.
    const catalogue::Measure* measureOf(const Entry& entry, const Parts& parts) const
    {
        const QString ours = parts.code(entry.resource, "code", measureSystem);
        return m_catalogue.measure(
            ours.isEmpty() ? measureOfLoinc(parts.code(entry.resource, "code", loincSystem)) : ours);
    }

    void takeObservation(const Entry& entry)
    {
        const Parts parts(entry.number, m_file.faults);
        const catalogue::Measure* measure = measureOf(entry, parts);
        if (measure == nullptr) {
            leave(entry, {});
            return;
        }
        const auto patient =
            m_places.constFind(parts.text(parts.object(entry.resource, "subject"), "reference"));
        if (patient == m_places.cend()) {
            leave(entry, base::said("Its patient is not taken."));
            return;
        }
        const QString status = parts.text(entry.resource, "status");
        if (status != u"final" && status != u"amended" && status != u"corrected") {
            leave(entry, base::said("It is not final."));
            return;
        }
        const QDate day = dayOf(parts.text(entry.resource, "effectiveDateTime"));
        if (!day.isValid()) {
            leave(entry, base::said("It has no day."));
            return;
        }
        const auto value = valueOf(entry, parts, *measure);
        if (!value) {
            leave(entry, base::said("Its value is no number in the unit of the test."));
            return;
        }
        Told told{&entry, {}};
        told.finding.measure = measure->id;
        told.finding.side =
            records::sideFromCode(parts.text(parts.object(entry.resource, "bodySite"), "text"))
                .value_or(records::Side::None);
        told.finding.value = *value;
        const exchange::ImportedPatient& whose = m_file.patients[*patient];
        m_file.faults.about(whose.patient.recordNumber, day);
        if (const auto wrong = records::wrongWith(told.finding, m_catalogue)) {
            parts.refuse(u"value"_s, wrong->what);
            return;
        }
        m_told[*patient][{day, measure->id, told.finding.side}].push_back(std::move(told));
    }

    std::optional<values::Value> valueOf(const Entry& entry, const Parts& parts,
                                         const catalogue::Measure& measure) const
    {
        const QString why = parts.code(entry.resource, "dataAbsentReason", absentSystem);
        if (const auto absence = absenceOf(why))
            return values::Missing{*absence, {}};
        const QJsonObject quantity = parts.object(entry.resource, "valueQuantity");
        const auto number = parts.number(quantity, "value");
        const QString unit = parts.text(quantity, "code");
        const QString due = values::code(measure.unit);
        const bool isCounted =
            measure.kind != catalogue::Kind::Choice && measure.kind != catalogue::Kind::Grade &&
            parts.text(quantity, "system") == ucumSystem && (unit == due || (isUnity(unit) && isUnity(due)));
        if (!number || !isCounted || !parts.text(quantity, "comparator").isEmpty())
            return std::nullopt;
        return values::Quantity{*number, measure.unit};
    }

    void makeVisits(size_t place)
    {
        exchange::ImportedPatient& read = m_file.patients[place];
        std::map<QDate, exchange::ImportedVisit> days;
        for (const auto& [which, told] : m_told[place]) {
            if (told.size() > 1) { // which of them is meant nobody can say
                for (const Told& one : told)
                    leave(*one.entry, base::said("The same test stands twice on one day."));
                continue;
            }
            exchange::ImportedVisit& visit = days[std::get<QDate>(which)];
            visit.visit.day = std::get<QDate>(which);
            visit.visit.findings.push_back(told.front().finding);
            visit.origins.push_back({1, {exchange::entryOf(told.front().entry->number)}});
        }
        for (auto& [day, visit] : days) {
            const exchange::Place& first = visit.origins.front().places.front();
            m_file.faults.about(read.patient.recordNumber, day);
            if (const auto wrong = records::wrongWith(visit.visit, read.patient, m_catalogue, m_today))
                m_file.faults.add(first, exchange::wrongAt(first, *wrong));
            if (const catalogue::Form* form = records::formFitting(visit.visit, m_catalogue))
                visit.visit.form = form->id;
            read.visits.push_back(std::move(visit));
        }
    }

    using Which = std::tuple<QDate, QString, records::Side>;

    const catalogue::Catalogue& m_catalogue;
    QDate m_today;
    exchange::FindingsFile m_file{{}, exchange::Faults(&exchange::entryOf)};
    QHash<QString, size_t> m_places;                        ///< of patients, by what refers to them
    std::vector<std::map<Which, std::vector<Told>>> m_told; ///< of each patient
};

} // namespace

exchange::FindingsFile foreignFrom(const std::vector<Entry>& entries, const catalogue::Catalogue& catalogue,
                                   QDate today)
{
    return Foreign(catalogue, today).taken(entries);
}

} // namespace fhir
