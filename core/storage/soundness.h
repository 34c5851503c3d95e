#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"
#include "core/storage/store.h"

#include <QStringList>

namespace storage
{

/// Every fault of an open records file as one sentence with the id of its record, without clinical content:
/// the file's own integrity, foreign keys, findings the catalogue would refuse, signed visits without author.
/// Empty: sound.
base::Result<QStringList> faults(Store& store, const catalogue::Catalogue& catalogue, QDate today);

} // namespace storage
