#pragma once

#include "core/catalogue/catalogue.h"

#include <QByteArray>
#include <QString>

namespace bench
{

/// A findings file of so many rows: invented patients, ten visits each, ten findings a visit.
QByteArray findingsRows(int rows);

/// Imports the file into new records at this path; whether all of it went in.
bool importRows(const QString& path, const QByteArray& file, const catalogue::Catalogue& catalogue);

/// The rows inserted through SQLite's own C interface into a table of as many columns, in one transaction.
bool insertRows(const QString& path, const QByteArray& file);

} // namespace bench
