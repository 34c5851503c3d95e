#include "app/console/long_work.h"
#include "app/session/exporting.h"
#include "app/session/messages.h"

namespace console
{

using namespace Qt::StringLiterals;

base::Result<void> exportRecords(const Request& request)
{
    const auto session = openRecords(request);
    if (!session)
        return session.error();
    records::Extent extent{{}, request.from, request.until, {}};
    if (!request.patient.isEmpty()) {
        const auto patient = found(**session, request.patient);
        if (!patient)
            return patient.error();
        extent.patients = {patient->patient.id};
    }
    if (!request.measure.isEmpty())
        extent.measures = {request.measure};
    LongWork writing(request, base::said("Writing the records"));
    const auto written = session::exportRecords(**session, extent, request.file,
                                                {request.letters, request.fhir}, writing.progress());
    if (!written)
        return written.error();
    request.out << u"Exported: patients %1, versions of visits %2, findings %3, letters %4.\n"_s.arg(
        QString::number(written->patients), QString::number(written->visits),
        QString::number(written->findings), QString::number(written->letters));
    if (written->isBeyondImport)
        request.err << base::said("The file is larger than what one import takes; export fewer patients at a "
                                  "time to read it again.")
                           .in(session::screenPhrases())
                    << '\n';
    return {};
}

} // namespace console
