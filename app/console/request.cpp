#include "app/console/request.h"

#include "app/session/account.h"
#include "core/storage/patients.h"
#include "core/storage/visits.h"

namespace console
{

using namespace Qt::StringLiterals;

base::Result<std::unique_ptr<session::Session>> openRecords(const Request& request, records::Opening opening)
{
    auto session = session::Session::open(request.records, request.catalogue, request.clock,
                                          whoWrites(request), opening);
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

} // namespace console
