#include "core/exchange/findings_file.h"

#include "core/exchange/whole_merge.h"

namespace exchange
{

using namespace Qt::StringLiterals;

base::Result<FindingsFile> wholeFileFrom(const std::vector<base::CsvRow>& rows,
                                         const catalogue::Catalogue& catalogue, QDate today,
                                         const records::Progress& progress, const OwnPart& ownPart,
                                         Faults faults)
{
    FindingsFile file{{}, std::move(faults)};
    const auto document = ownDocumentIn(rows);
    if (!document)
        return document.error();
    catalogue::Catalogue both;
    if (!document->isEmpty()) {
        const catalogue::Catalogue& released = ownPart.released == nullptr ? catalogue : *ownPart.released;
        const auto theirs = catalogue::ownFrom(*document, u"catalogue"_s, released);
        if (!theirs)
            return theirs.error();
        auto own = bothParts(ownPart.own == nullptr ? catalogue::Own() : *ownPart.own, *theirs);
        if (!own)
            return own.error();
        both = catalogue::withOwn(released, *own);
        file.own = std::move(*own);
    }
    auto records = recordsFrom(rows, file.own ? both : catalogue, today, file.faults, progress);
    if (!records)
        return records.error();
    file.records = std::move(*records);
    return file;
}

} // namespace exchange
