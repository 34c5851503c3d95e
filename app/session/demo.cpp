#include "app/session/demo.h"

#include "app/session/importing.h"
#include "core/base/csv.h"
#include "core/exchange/findings_csv.h"
#include "core/records/check.h"
#include "core/storage/happenings.h"
#include "core/storage/patients.h"
#include "core/storage/targets.h"
#include "core/storage/transaction.h"
#include "core/storage/visits.h"

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

namespace session
{

using namespace Qt::StringLiterals;

namespace
{

using Outcome = base::Result<void>;

QByteArray demoFile(const QString& name)
{
    QFile file(u":/demo/"_s + name);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

QDate isoDay(const QString& text)
{
    return QDate::fromString(text, Qt::ISODate);
}

/// A findings file with the days of its visits moved.
base::Result<QByteArray> moved(const QByteArray& csv, qint64 days)
{
    const auto rows = base::csvRows(csv);
    if (!rows)
        return rows.error();
    const qsizetype column = rows->empty() ? -1 : rows->front().cells.indexOf(u"date"_s);
    QByteArray lines;
    for (const base::CsvRow& row : *rows) {
        QStringList cells = row.cells;
        if (const QDate day = isoDay(cells.value(column)); day.isValid())
            cells[column] = day.addDays(days).toString(Qt::ISODate);
        lines += base::csvLine(cells);
    }
    return lines;
}

records::Author authorFrom(const QJsonObject& json)
{
    return {json[u"name"_s].toString(), json[u"role"_s].toString(), json[u"registration"_s].toString()};
}

records::Clinic clinicFrom(const QJsonObject& json)
{
    records::Clinic clinic{json[u"name"_s].toString(), json[u"address"_s].toString(),
                           json[u"telephone"_s].toString(), true};
    for (const auto& level : json[u"urgencyLevels"_s].toArray())
        clinic.urgencyLevels += level.toString();
    const QJsonObject weeks = json[u"reviewWeeks"_s].toObject();
    for (const QString& population : weeks.keys())
        clinic.reviews.push_back(
            {records::ReviewInterval::Of::Population, population, weeks[population].toInt()});
    return clinic;
}

/// What a findings file cannot say of a patient.
void complete(records::Patient& patient, const QJsonObject& json, qint64 days)
{
    patient.dominantHand = records::handFromCode(json[u"hand"_s].toString()).value_or(records::Hand::Unknown);
    if (const QJsonValue height = json[u"heightCm"_s]; height.isDouble())
        patient.heightCm = height.toDouble();
    if (const QJsonValue weight = json[u"weightKg"_s]; weight.isDouble())
        patient.weightKg = weight.toDouble();
    if (const QDate onset = isoDay(json[u"onset"_s].toString()); onset.isValid())
        patient.onset = onset.addDays(days);
    patient.diagnosis = json[u"diagnosis"_s].toString();
    patient.referrer = json[u"referrer"_s].toString();
    patient.generalPractitioner = json[u"generalPractitioner"_s].toString();
    patient.allergies = json[u"allergies"_s].toString();
    patient.notes = json[u"notes"_s].toString();
}

/// The demo clinic on its way into the records.
struct Making {
    Session& session;
    QJsonObject clinic;
    qint64 days = 0; ///< from the day the files were written for to today
    records::Author author = authorFrom(clinic[u"author"_s].toObject());
    storage::Patients patients{session.store()};
    storage::Visits visits{session.store()};

    base::Result<std::vector<exchange::ImportedPatient>> read(const QString& name) const
    {
        const auto csv = moved(demoFile(name), days);
        if (!csv)
            return csv.error();
        return exchange::patientsFromCsv(*csv, session.catalogue(), session.today());
    }

    base::Result<records::Patient> patient(const QString& number) const
    {
        auto found = patients.withRecordNumber(number);
        if (!found)
            return found.error();
        if (!*found)
            return base::Error{base::ErrorKind::NotFound,
                               base::said("The demo files name a patient they do not hold."), number};
        return **found;
    }

    Outcome signedVisits()
    {
        const auto imported = read(u"patients.csv"_s);
        if (!imported)
            return imported.error();
        const auto summary = importPatients(session, *imported, author);
        return summary ? Outcome() : summary.error();
    }

    Outcome completePatients()
    {
        const QJsonObject all = clinic[u"patients"_s].toObject();
        for (const QString& number : all.keys()) {
            auto known = patient(number);
            if (!known)
                return known.error();
            complete(*known, all[number].toObject(), days);
            if (const auto saved = patients.save(*known); !saved)
                return saved.error();
        }
        return {};
    }

    /// The visit of today that waits to be finished and signed.
    Outcome openDrafts()
    {
        const auto imported = read(u"draft.csv"_s);
        if (!imported)
            return imported.error();
        for (const exchange::ImportedPatient& one : *imported) {
            const auto known = patient(one.patient.recordNumber);
            if (!known)
                return known.error();
            for (const exchange::ImportedVisit& oneDay : one.visits) {
                records::Visit visit = oneDay.visit;
                visit.id = records::VisitId::make();
                visit.series = visit.id;
                visit.patient = known->id;
                visit.conditionsConfirmed = false;
                visit.form = session.catalogue().forms.front().id; // still to be filled in
                if (const auto added = visits.add(visit); !added)
                    return added.error();
            }
        }
        return {};
    }

    Outcome amend(const QJsonObject& json)
    {
        const auto known = patient(json[u"patient"_s].toString());
        if (!known)
            return known.error();
        const auto versions = visits.ofPatient(known->id);
        if (!versions)
            return versions.error();
        const QDate day = isoDay(json[u"date"_s].toString()).addDays(days);
        const auto place = std::ranges::find(*versions, day, &records::Visit::day);
        if (place == versions->end())
            return base::Error{
                base::ErrorKind::NotFound, base::said("The demo files amend a visit they do not hold."), {}};
        const auto amendment = visits.amend(place->id, json[u"reason"_s].toString());
        if (!amendment)
            return amendment.error();
        const records::Finding* old = amendment->finding(json[u"measure"_s].toString(), records::Side::None);
        if (old == nullptr)
            return base::Error{base::ErrorKind::NotFound,
                               base::said("The demo files amend a finding they do not hold."),
                               {}};
        records::Finding finding = *old;
        const double number = json[u"value"_s].toDouble();
        finding.trials = {number};
        finding.value = values::Quantity{number, session.catalogue().measure(finding.measure)->unit};
        if (auto saved = visits.saveFinding(amendment->id, finding); !saved)
            return saved;
        const auto done = visits.sign(amendment->id, author);
        return done ? Outcome() : done.error();
    }

    Outcome amendments()
    {
        for (const auto& amendment : clinic[u"amendments"_s].toArray()) {
            if (auto amended = amend(amendment.toObject()); !amended)
                return amended;
        }
        return {};
    }

    /// A day of the files, moved; empty where there is none.
    std::optional<QDate> dayOf(const QJsonValue& written) const
    {
        const QDate day = isoDay(written.toString());
        return day.isValid() ? std::optional(day.addDays(days)) : std::nullopt;
    }

    Outcome events()
    {
        for (const auto& each : clinic[u"events"_s].toArray()) {
            const QJsonObject json = each.toObject();
            const auto known = patient(json[u"patient"_s].toString());
            if (!known)
                return known.error();
            records::Happening event;
            event.patient = known->id;
            event.kind = records::happeningKindFromCode(json[u"kind"_s].toString())
                             .value_or(records::HappeningKind::Other);
            event.from = dayOf(json[u"from"_s]).value_or(QDate());
            event.until = dayOf(json[u"until"_s]);
            event.injury =
                records::injuryFromCode(json[u"injury"_s].toString()).value_or(records::Injury::NotStated);
            event.words = json[u"words"_s].toString();
            if (const auto wrong = records::wrongWith(event, *known, session.today()))
                return *wrong;
            if (const auto saved = storage::Happenings(session.store()).save(event); !saved)
                return saved.error();
        }
        return {};
    }

    Outcome targets()
    {
        storage::Targets targets(session.store());
        for (const auto& each : clinic[u"targets"_s].toArray()) {
            const QJsonObject json = each.toObject();
            const auto known = patient(json[u"patient"_s].toString());
            if (!known)
                return known.error();
            records::Target target;
            target.measure = json[u"measure"_s].toString();
            target.side = records::sideFromCode(json[u"side"_s].toString()).value_or(records::Side::None);
            target.value = json[u"value"_s].toDouble();
            target.agreedOn = dayOf(json[u"agreedOn"_s]).value_or(QDate());
            target.by = dayOf(json[u"by"_s]);
            target.words = json[u"words"_s].toString();
            if (const auto wrong = records::wrongWith(target, *known, session.catalogue(), session.today()))
                return *wrong;
            if (auto saved = targets.save(known->id, target); !saved)
                return saved;
            const QString reason = json[u"droppedFor"_s].toString();
            if (auto dropped = reason.isEmpty()
                                   ? Outcome()
                                   : targets.drop(known->id, target.measure, target.side, reason);
                !dropped)
                return dropped;
        }
        return {};
    }

    Outcome everything()
    {
        for (auto step : {&Making::signedVisits, &Making::completePatients, &Making::openDrafts,
                          &Making::amendments, &Making::events, &Making::targets}) {
            if (auto done = (this->*step)(); !done)
                return done;
        }
        return session.saveClinic(clinicFrom(clinic[u"clinic"_s].toObject()));
    }
};

} // namespace

base::Result<void> makeDemoClinic(Session& session)
{
    const auto present = session.patients();
    if (!present)
        return present.error();
    if (!present->empty()) {
        return base::Error{
            base::ErrorKind::Refused,
            base::said("The demo clinic is made in an empty records file only; this one holds patients."),
            {}};
    }
    const QJsonObject clinic = QJsonDocument::fromJson(demoFile(u"clinic.json"_s)).object();
    Making making{session, clinic, isoDay(clinic[u"writtenFor"_s].toString()).daysTo(session.today())};
    return storage::together(session.store(), [&making] { return making.everything(); });
}

} // namespace session
