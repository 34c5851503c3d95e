#include "tests/bench/clinic.h"

#include "core/catalogue/catalogue.h"
#include "core/records/summary.h"
#include "core/storage/patients.h"
#include "core/storage/store.h"
#include "core/storage/transaction.h"
#include "core/storage/visits.h"

#include <QTimeZone>

#include <algorithm>

namespace bench
{

namespace
{

using records::Side;

const QDate firstDay(2016, 1, 11);
constexpr int mostPatients = 10000;
constexpr int manyVisits = 100;

session::Clock clockOf(QDate day)
{
    return [day] { return QDateTime(day, QTime(9, 0), QTimeZone::utc()); };
}

/// A value well inside the measure's range that wanders a little from visit to visit.
values::Value valueOf(const catalogue::Measure& measure, int visit)
{
    const int wobble = visit * 7 % 5;
    if (measure.kind == catalogue::Kind::Grade)
        return values::Grade{wobble % 3};
    if (measure.kind == catalogue::Kind::Choice)
        return values::Choice{measure.options.at(size_t(wobble) % measure.options.size()).key};
    const double step = measure.step.value_or(1);
    const double middle = (measure.lowest.value_or(0) + measure.highest.value_or(100)) / 4;
    return values::Quantity{std::round(middle / step + wobble) * step, measure.unit};
}

records::Finding findingOf(const catalogue::Measure& measure, Side side, int visit)
{
    records::Finding finding;
    finding.measure = measure.id;
    finding.side = side;
    finding.value = valueOf(measure, visit);
    if (const auto* quantity = std::get_if<values::Quantity>(&finding.value))
        finding.trials.assign(size_t(measure.trials), quantity->number);
    return finding;
}

records::Visit visitOf(const records::PatientId& patient, QDate day, int number,
                       const std::vector<const catalogue::Measure*>& measures,
                       const records::Conditions& conditions)
{
    records::Visit visit;
    visit.id = records::VisitId::make();
    visit.series = visit.id;
    visit.patient = patient;
    visit.day = day;
    visit.form = QStringLiteral("neurological");
    visit.conditionsConfirmed = true;
    visit.conditions = conditions;
    for (const catalogue::Measure* measure : measures) {
        const auto sides = measure->hasSides ? std::vector{Side::Right, Side::Left} : std::vector{Side::None};
        for (const Side side : sides)
            visit.findings.push_back(findingOf(*measure, side, number));
    }
    return visit;
}

records::Patient patientNumber(int number)
{
    records::Patient patient;
    patient.id = records::PatientId::make();
    patient.family = QStringLiteral("Invented %1").arg(number * 7919 % mostPatients, 5, 10, QLatin1Char('0'));
    patient.given = QStringLiteral("Given %1").arg(number % 97);
    patient.born = QDate(1940, 1, 1).addDays(number * 3);
    patient.population = QStringLiteral("stroke-chronic");
    patient.recordNumber = number == 0 ? QStringLiteral("MANY") : QStringLiteral("B-%1").arg(number);
    return patient;
}

base::Result<void> addPatient(storage::Store& store, int number,
                              const std::vector<const catalogue::Measure*>& all,
                              const records::Conditions& conditions)
{
    const auto patient = storage::Patients(store).save(patientNumber(number));
    if (!patient)
        return patient.error();
    storage::Visits visits(store);
    const int count = number == 0 ? manyVisits : 1;
    const std::vector<const catalogue::Measure*> few(all.begin(), all.begin() + 4);
    for (int visit = 0; visit < count; ++visit) {
        const auto added = visits.add(
            visitOf(patient->id, firstDay.addDays(visit * 30), visit, number == 0 ? all : few, conditions));
        if (!added)
            return added.error();
        const bool staysOpen = number == 0 && visit == count - 1;
        if (staysOpen)
            continue;
        if (auto signedVisit = visits.sign(added->id, {QStringLiteral("A. Invented"), {}, {}}); !signedVisit)
            return signedVisit.error();
    }
    return {};
}

/// Known to every process of a run; invented data need no secret.
sealing::Seal theSeal()
{
    std::array<unsigned char, sealing::Key::size> bytes = {};
    bytes.fill(7);
    return {sealing::Key::of(bytes), "{}"};
}

} // namespace

records::Conditions everyCondition(const catalogue::Catalogue& catalogue)
{
    records::Conditions all;
    for (const catalogue::Condition& condition : catalogue.conditions) {
        if (condition.isNumber)
            all[condition.id] = QString::number(std::max(condition.lowest.value_or(1), 1.0));
        else
            all[condition.id] =
                condition.options.empty() ? QStringLiteral("as always") : condition.options.front().key;
    }
    return all;
}

base::Result<void> makeClinic(const QString& path, const catalogue::Catalogue& catalogue, int patients)
{
    auto store =
        storage::Store::open(path, {QStringLiteral("bench"), clockOf(firstDay)}, records::Opening::MayCreate);
    if (!store)
        return store.error();
    const records::Conditions conditions = everyCondition(catalogue);
    std::vector<const catalogue::Measure*> all;
    for (const catalogue::Measure& measure : catalogue.measures)
        all.push_back(&measure);
    return storage::together(**store, [&]() -> base::Result<void> {
        for (int number = 0; number < patients; ++number) {
            if (auto added = addPatient(**store, number, all, conditions); !added)
                return added;
        }
        return {};
    });
}

bool seal(const QString& path, const catalogue::Catalogue& catalogue)
{
    const auto session = openedClinic(path, catalogue);
    return session != nullptr && session->seal(theSeal(), {});
}

std::unique_ptr<session::Session> openedClinic(const QString& path, const catalogue::Catalogue& catalogue)
{
    records::Access access{QStringLiteral("bench"), clockOf(firstDay.addDays(manyVisits * 30))};
    if (sealing::isSealed(path))
        access.seal = theSeal();
    auto opened = session::Session::open(path, catalogue, access, records::Opening::MustExist);
    return opened ? std::move(*opened) : nullptr;
}

records::PatientId patientWithMany(const session::Session& session)
{
    const auto all = session.patients();
    if (!all)
        return {};
    const auto many = std::ranges::find(*all, QStringLiteral("MANY"), &records::PatientSummary::recordNumber);
    return many == all->end() ? records::PatientId() : many->id;
}

} // namespace bench
