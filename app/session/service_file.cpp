#include "app/session/service_file.h"

#include "core/base/file.h"
#include "core/exchange/service_csv.h"
#include "core/letters/service_page.h"
#include "core/paper/pages.h"

using namespace Qt::StringLiterals;

namespace session
{

base::Result<void> writeServiceReport(const Session& session, const judging::Period& period,
                                      const QString& path, const base::Phrasebook& phrases,
                                      const records::Progress& progress)
{
    const auto report = session.serviceReport(period, progress);
    if (!report)
        return report.error();
    const catalogue::Catalogue& catalogue = session.catalogue();
    if (path.endsWith(u".csv"_s, Qt::CaseInsensitive))
        return base::write(exchange::serviceCsv(*report, catalogue, phrases), path);
    const auto pdf =
        paper::pdf(letters::servicePage(*report, session.clinic(), session.today(), catalogue, phrases));
    return pdf ? base::write(*pdf, path) : pdf.error();
}

} // namespace session
