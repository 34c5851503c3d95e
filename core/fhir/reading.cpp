#include "core/fhir/reading.h"

#include "core/fhir/foreign.h"
#include "core/fhir/rows.h"

#include <algorithm>

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
    const auto bundle = Bundle::of(bytes);
    if (!bundle)
        return bundle.error();
    if (!bundle->isOfWholeRecords()) {
        std::vector<Entry> entries;
        if (auto read = bundle->read(
                [&](const auto& more) { entries.insert(entries.end(), more.begin(), more.end()); }, progress);
            !read)
            return read.error();
        std::ranges::sort(entries, {}, &Entry::number);
        return foreignFrom(entries, catalogue, today);
    }
    constexpr int shareOfReading = 90;
    exchange::Faults faults(&exchange::entryOf);
    std::vector<exchange::LeftOut> leftOut;
    Rows rows(catalogue, faults, leftOut);
    if (auto read = bundle->read([&](const auto& entries) { rows.take(entries); },
                                 records::share(progress, 0, shareOfReading));
        !read)
        return read.error();
    auto file = exchange::wholeFileFrom(rows.all(), catalogue, today,
                                        records::share(progress, shareOfReading, 100), ownPart, faults);
    if (file)
        file->leftOut = std::move(leftOut);
    return file;
}

} // namespace fhir
