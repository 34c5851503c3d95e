#include "app/console/request.h"

#include "app/console/long_work.h"
#include "app/session/account.h"
#include "core/storage/patients.h"
#include "core/storage/visits.h"

namespace console
{

using namespace Qt::StringLiterals;

base::Result<std::unique_ptr<session::Session>> openRecords(const Request& request, records::Opening opening)
{
    LongWork modernising(request, base::said("Bringing the records up to date"));
    records::Access access = accessOf(request);
    access.progress = modernising.progress();
    auto session = session::Session::open(request.records, request.catalogue, access, opening);
    if (session && !(*session)->catalogueFault().isEmpty())
        request.err << (*session)->catalogueFault() << '\n' << Qt::flush;
    return session;
}

base::Result<std::unique_ptr<session::Session>> openRecords(const Request& request)
{
    return openRecords(request, records::Opening::ToRead);
}

QString whoWrites(const Request& request)
{
    return request.by.isEmpty() ? session::account() : request.by;
}

records::Access accessOf(const Request& request)
{
    return {whoWrites(request), request.clock, {}, request.seal};
}

base::Result<Found> found(session::Session& session, const QString& recordNumber)
{
    const auto patient = storage::Patients(session.store()).withRecordNumber(recordNumber);
    if (!patient)
        return patient.error();
    if (!*patient)
        return base::Error{
            base::ErrorKind::NotFound, base::said("No patient in these records has that record number."), {}};
    const auto versions = storage::Visits(session.store()).ofPatient((*patient)->id);
    if (!versions)
        return versions.error();
    return Found{**patient, records::current(*versions), session.clinic().judging};
}

QJsonValue dayOrNull(const std::optional<QDate>& day)
{
    return day ? QJsonValue(day->toString(Qt::ISODate)) : QJsonValue();
}

} // namespace console
