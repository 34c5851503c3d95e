#pragma once

#include "core/base/result.h"
#include "core/storage/store.h"

#include <QByteArray>

namespace storage
{

/// The key the next row of a table gets.
base::Result<qint64> nextKey(const Store& store, const QString& table);

/// A number by which a long text is found again, with others that may have the same.
qint64 digestOf(const QByteArray& words);

/// The key of a text that is stored once, in a table of (key, digest, `column`); it is stored where it was
/// not.
base::Result<qint64> keyOfText(const Store& store, const QString& table, const QString& column,
                               const QByteArray& words);

/// The same of a name short enough to be found by itself, in a table of (key, `column`).
base::Result<qint64> keyOfName(const Store& store, const QString& table, const QString& column,
                               const QString& name);

} // namespace storage
