#pragma once

#include "core/base/result.h"
#include "core/storage/store.h"

#include <QStringList>

#include <vector>

namespace storage
{

/// One file of the chain: what brings the schema from `version` − 1 to `version`. What a SELECT among its
/// statements finds did not come through as it was, and fails it.
struct Migration {
    int version = 0;
    QStringList statements;
};

/// The chain in a folder of files named 0001_*.sql, 0002_*.sql …, oldest first. The program's own is at
/// ":/schema".
std::vector<Migration> chain(const QString& folder);

/// The version of the open database; 0 before the first migration.
base::Result<int> schemaVersion(const Store& store);

/// Runs what the database lacks of the chain, each migration whole or not at all.
base::Result<void> migrate(Store& store, const std::vector<Migration>& chain);

} // namespace storage
