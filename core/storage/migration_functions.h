#pragma once

#include "core/records/progress.h"

#include <QtGlobal>

struct sqlite3;

namespace storage
{

/// What the statements of resources/schema call beside SQLite's own functions: number_list(place, value), an
/// aggregate, a JSON list with each number in its place; numbers_in(list), how many it holds; number_in(list,
/// place), NULL where none is; digest(text); counted(value), the value itself and one step further.
class MigrationFunctions
{
public:
    /// `told` hears how far it is, in percent of `steps`, and stops it by false; it may be empty.
    MigrationFunctions(sqlite3* database, qint64 steps, records::Progress told);
    ~MigrationFunctions();
    MigrationFunctions(const MigrationFunctions&) = delete;
    MigrationFunctions& operator=(const MigrationFunctions&) = delete;

    bool step(); ///< whether it goes on

private:
    sqlite3* m_database;
    qint64 m_steps;
    qint64 m_done = 0;
    int m_percent = -1; ///< told last
    records::Progress m_told;
};

} // namespace storage
