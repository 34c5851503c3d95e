#pragma once

#include "core/base/result.h"
#include "core/catalogue/catalogue.h"
#include "core/storage/store.h"

#include <QStringList>

namespace storage
{

/// Every fault of an open records file as one sentence with the id of its record, without clinical content:
/// the file's own integrity, foreign keys, and whatever the check before every write (records::wrongWith)
/// would refuse of what is stored. Empty: sound.
base::Result<QStringList> faults(Store& store, const catalogue::Catalogue& catalogue, QDate today,
                                 const records::Progress& progress = {});

} // namespace storage
