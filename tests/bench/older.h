#pragma once

#include <QString>

namespace bench
{

/// A records file of the sixth schema with the facts of a file of today's: what the shell and SQLite's own C
/// interface read for comparison, so that a smaller schema does not make its own measure smaller.
bool makeOlder(const QString& path, const QString& newer);

} // namespace bench
