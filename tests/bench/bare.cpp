#include "tests/bench/bare.h"

#include <sqlite3.h>

#include <cstdlib>

namespace bench
{

namespace
{

void must(bool holds)
{
    if (!holds)
        std::abort();
}

} // namespace

BareRecords::BareRecords(const QString& path)
{
    must(sqlite3_open(path.toUtf8().constData(), &m_database) == SQLITE_OK);
    run("PRAGMA journal_mode = WAL");
    run("PRAGMA synchronous = FULL");
}

BareRecords::~BareRecords()
{
    sqlite3_close(m_database);
}

void BareRecords::run(const char* sql)
{
    must(sqlite3_exec(m_database, sql, nullptr, nullptr, nullptr) == SQLITE_OK);
}

int BareRecords::readAll(const char* sql, const QString& key)
{
    sqlite3_stmt* statement = nullptr;
    must(sqlite3_prepare_v2(m_database, sql, -1, &statement, nullptr) == SQLITE_OK);
    const QByteArray bytes = key.toUtf8();
    sqlite3_bind_text(statement, 1, bytes.constData(), int(bytes.size()), SQLITE_STATIC);
    int rows = 0;
    while (sqlite3_step(statement) == SQLITE_ROW) {
        for (int column = 0; column < sqlite3_column_count(statement); ++column)
            must(sqlite3_column_bytes(statement, column) >= 0);
        ++rows;
    }
    sqlite3_finalize(statement);
    return rows;
}

int BareRecords::readPatient(const QString& patient)
{
    return readAll("SELECT * FROM patients WHERE id = ?", patient) +
           readAll("SELECT * FROM visits WHERE patient = ? ORDER BY day, version", patient) +
           readAll("SELECT f.* FROM findings f JOIN visits v ON v.id = f.visit WHERE v.patient = ?",
                   patient) +
           readAll(
               "SELECT t.* FROM trials t JOIN findings f ON f.id = t.finding JOIN visits v ON v.id = f.visit "
               "WHERE v.patient = ?",
               patient) +
           readAll("SELECT c.* FROM finding_conditions c JOIN findings f ON f.id = c.finding "
                   "JOIN visits v ON v.id = f.visit WHERE v.patient = ?",
                   patient) +
           readAll("SELECT c.* FROM visit_conditions c JOIN visits v ON v.id = c.visit WHERE v.patient = ?",
                   patient);
}

void BareRecords::writeNumber(const QString& visit, const QString& measure, double number)
{
    sqlite3_stmt* statement = nullptr;
    run("BEGIN IMMEDIATE");
    must(sqlite3_prepare_v2(m_database, "UPDATE findings SET number = ? WHERE visit = ? AND measure = ?", -1,
                            &statement, nullptr) == SQLITE_OK);
    const QByteArray visitBytes = visit.toUtf8();
    const QByteArray measureBytes = measure.toUtf8();
    sqlite3_bind_double(statement, 1, number);
    sqlite3_bind_text(statement, 2, visitBytes.constData(), int(visitBytes.size()), SQLITE_STATIC);
    sqlite3_bind_text(statement, 3, measureBytes.constData(), int(measureBytes.size()), SQLITE_STATIC);
    must(sqlite3_step(statement) == SQLITE_DONE && sqlite3_changes(m_database) == 1);
    sqlite3_finalize(statement);
    run("COMMIT");
}

} // namespace bench
