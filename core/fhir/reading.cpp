#include "core/fhir/reading.h"

#include "core/fhir/foreign.h"
#include "core/fhir/rows.h"

namespace fhir
{

bool isJson(const QByteArray& bytes)
{
    constexpr qsizetype enough = 100;
    const qsizetype mark = bytes.startsWith("\xEF\xBB\xBF") ? 3 : 0;
    const QByteArray start = bytes.mid(mark, enough).trimmed();
    return start.startsWith('{') || start.startsWith('[');
}

base::Result<exchange::FindingsFile> bundleFrom(const QByteArray& bytes,
                                                const catalogue::Catalogue& catalogue, QDate today,
                                                const records::Progress& progress,
                                                const exchange::OwnPart& ownPart)
{
    if (bytes.size() > exchange::largestBundle)
        return base::Error{base::ErrorKind::Invalid,
                           base::said("The file is larger than 400 MB, the most that is allowed."),
                           {}};
    const auto bundle = bundleOf(bytes);
    if (!bundle)
        return bundle.error();
    if (progress && !progress(0))
        return base::stopped();
    if (!bundle->isOfWholeRecords)
        return foreignFrom(*bundle, catalogue, today);
    exchange::Faults faults(&exchange::entryOf);
    std::vector<exchange::LeftOut> leftOut;
    const std::vector<base::CsvRow> rows = rowsOf(*bundle, catalogue, faults, leftOut);
    auto file = exchange::wholeFileFrom(rows, catalogue, today, progress, ownPart, faults);
    if (file)
        file->leftOut = std::move(leftOut);
    return file;
}

} // namespace fhir
