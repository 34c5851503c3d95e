#pragma once

#include "core/records/progress.h"

#include <functional>

struct sqlite3;

namespace storage
{

/// While it lives, SQLite asks every few steps whether it goes on, and is interrupted where it does not.
class Watch
{
public:
    using GoesOn = std::function<bool()>;

    /// An empty `goesOn` is never asked, and none where there is no database (nullptr).
    Watch(sqlite3* database, GoesOn goesOn);
    ~Watch();
    Watch(const Watch&) = delete;
    Watch& operator=(const Watch&) = delete;

private:
    sqlite3* m_database;
    GoesOn m_goesOn;
};

/// What tells how far a copy is, by how its file grows to this many bytes.
Watch::GoesOn asItGrows(const QString& file, qint64 whole, const records::Progress& progress);

} // namespace storage
