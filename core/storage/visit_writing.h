#pragma once

#include "core/records/visit.h"
#include "core/storage/store.h"

namespace storage
{

/// Writes a draft and everything in it.
base::Result<void> insertDraft(const Store& store, const records::Visit& visit);

/// A visit has a key of the store, by which what is in it is found.
/// Writes one finding with its trials, taps and exceptions in place of the one of the same measure and side.
base::Result<void> putFinding(const Store& store, qint64 visit, const records::Finding& finding);

base::Result<int> removeFinding(const Store& store, qint64 visit, const QString& measure, records::Side side);

/// Writes a visit's conditions in place of those it had.
base::Result<void> putConditions(const Store& store, qint64 visit, const records::Conditions& conditions);

} // namespace storage
