#include "core/exchange/fhir_reading.h"

#include "core/exchange/fhir_foreign.h"
#include "core/exchange/fhir_rows.h"

namespace exchange
{

base::Result<FindingsFile> bundleFrom(const QByteArray& bytes, const catalogue::Catalogue& catalogue,
                                      QDate today, const records::Progress& progress, const OwnPart& ownPart)
{
    if (bytes.size() > largestBundle)
        return base::Error{base::ErrorKind::Invalid,
                           base::said("The file is larger than 400 MB, the most that is allowed."),
                           {}};
    const auto bundle = fhir::bundleOf(bytes);
    if (!bundle)
        return bundle.error();
    if (progress && !progress(0))
        return base::stopped();
    if (!bundle->isOfWholeRecords)
        return fhir::foreignFrom(*bundle, catalogue, today);
    Faults faults(&entryOf);
    std::vector<LeftOut> leftOut;
    const std::vector<base::CsvRow> rows = fhir::rowsOf(*bundle, catalogue, faults, leftOut);
    auto file = wholeFileFrom(rows, catalogue, today, progress, ownPart, faults);
    if (file)
        file->leftOut = std::move(leftOut);
    return file;
}

} // namespace exchange
