#pragma once

#include "core/base/result.h"

#include <QHash>
#include <QVariant>

#include <vector>

struct sqlite3;
struct sqlite3_stmt;

namespace storage
{

/// What stands for one `:name` of a statement.
struct Binding {
    const char* name;
    QVariant value;
};

/// The statements of one connection, each prepared once and stepped through SQLite itself: preparing anew
/// through Qt Sql is most of what a small save costs.
class Statements
{
public:
    /// Of no database (nullptr) all fail.
    explicit Statements(sqlite3* database) : m_database(database) {}
    ~Statements();
    Statements(const Statements&) = delete;
    Statements& operator=(const Statements&) = delete;

    sqlite3* database() const { return m_database; }

    /// One run of a statement; given back, to be run again, when it goes.
    class Run
    {
    public:
        Run(Statements& statements, const QString& sql, const std::vector<Binding>& bindings);
        ~Run();
        Run(const Run&) = delete;
        Run& operator=(const Run&) = delete;

        /// Whether there is another row.
        base::Result<bool> step();
        sqlite3_stmt* row() const { return m_statement; }
        int touched() const; ///< rows, by the statement run last

    private:
        void bind(const Binding& binding);

        Statements& m_statements;
        QString m_sql;
        sqlite3_stmt* m_statement = nullptr;
        int m_fault = 0;
    };

private:
    sqlite3* m_database;
    QMultiHash<QString, sqlite3_stmt*> m_idle;
};

/// What SQLite said, as the kind of error it is. Busy, read-only and full are Unwritable, damaged is
/// Unreadable, a broken rule of the schema is Invalid, a frozen record is Refused.
base::Error errorOf(int extendedCode, const QString& words);
base::Error errorOf(sqlite3* database);

} // namespace storage
