#pragma once

#include "core/records/visit.h"
#include "core/storage/store.h"

#include <QHash>

namespace storage
{

/// What few findings have, by the finding's id, read at once for a pass over all patients.
struct RareParts {
    QHash<QString, std::vector<double>> taps;
    QHash<QString, records::Conditions> exceptions;
};
base::Result<RareParts> rareParts(const Store& store);

/// The visits of which a condition on `visits` holds (with `:key` in it), with everything in them, oldest day
/// and version first; a handful of queries, however many there are, two fewer where `rare` holds their rows.
/// Inside a transaction of the caller.
base::Result<std::vector<records::Visit>> visitsWhere(const Store& store, const QString& condition,
                                                      const QString& key, const RareParts* rare = nullptr);

/// Which drafts may be the version that counts: any, or that of a visit that was never signed.
enum class Drafts { Too, OnlyFirst };

/// SQL that holds for a row of `visits` that is the version that counts of its visit, as records::current
/// chooses it: the newest of those that may, unless the visit was entered in error.
QString thatCounts(Drafts drafts);

} // namespace storage
