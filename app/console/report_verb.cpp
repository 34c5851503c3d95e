#include "app/console/long_work.h"
#include "app/session/service_file.h"

namespace console
{

base::Result<void> writeReport(const Request& request)
{
    const auto session = openRecords(request);
    if (!session)
        return session.error();
    LongWork counting(request, base::said("Counting the visits"));
    return session::writeServiceReport(**session, request.period, request.to, base::Phrasebook(),
                                       counting.progress());
}

} // namespace console
