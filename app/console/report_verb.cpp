#include "app/console/request.h"
#include "app/session/service_file.h"

namespace console
{

base::Result<void> writeReport(const Request& request)
{
    const auto session = openRecords(request);
    if (!session)
        return session.error();
    return session::writeServiceReport(**session, request.period, request.to, base::Phrasebook());
}

} // namespace console
