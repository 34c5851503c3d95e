#pragma once

#include <QString>

struct sqlite3;

namespace bench
{

/// The same rows through SQLite's own C interface, without a program around them.
class BareRecords
{
public:
    explicit BareRecords(const QString& path);
    ~BareRecords();
    BareRecords(const BareRecords&) = delete;
    BareRecords& operator=(const BareRecords&) = delete;

    /// Steps through every visit, finding, trial and condition of a patient; the number of rows seen.
    int readPatient(const QString& patient);
    /// Writes one number into one finding of a draft and commits it durably.
    void writeNumber(const QString& visit, const QString& measure, double number);

private:
    int readAll(const char* sql, const QString& key);
    void run(const char* sql);

    sqlite3* m_database = nullptr;
};

} // namespace bench
