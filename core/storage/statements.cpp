#include "core/storage/statements.h"

#include <sqlite3.h>

namespace storage
{

using base::Error;
using base::ErrorKind;

Statements::~Statements()
{
    for (sqlite3_stmt* statement : std::as_const(m_idle))
        sqlite3_finalize(statement);
}

Statements::Run::Run(Statements& statements, const QString& sql, const std::vector<Binding>& bindings)
    : m_statements(statements), m_sql(sql), m_statement(statements.m_idle.take(sql))
{
    if (m_statements.m_database == nullptr)
        m_fault = SQLITE_CANTOPEN;
    else if (m_statement == nullptr) {
        const QByteArray bytes = sql.toUtf8();
        m_fault = sqlite3_prepare_v3(m_statements.m_database, bytes.constData(), int(bytes.size()),
                                     SQLITE_PREPARE_PERSISTENT, &m_statement, nullptr);
    }
    for (const Binding& binding : bindings)
        bind(binding);
}

Statements::Run::~Run()
{
    if (m_statement == nullptr)
        return;
    if (m_sql.startsWith(QLatin1String("PRAGMA"))) { // some act when they are prepared
        sqlite3_finalize(m_statement);
        return;
    }
    sqlite3_reset(m_statement);
    sqlite3_clear_bindings(m_statement);
    m_statements.m_idle.insert(m_sql, m_statement);
}

void Statements::Run::bind(const Binding& binding)
{
    const int place = m_statement == nullptr ? 0 : sqlite3_bind_parameter_index(m_statement, binding.name);
    if (m_fault != SQLITE_OK || place == 0 || binding.value.isNull())
        return;
    switch (binding.value.typeId()) {
    case QMetaType::Int:
    case QMetaType::LongLong:
        m_fault = sqlite3_bind_int64(m_statement, place, binding.value.toLongLong());
        break;
    case QMetaType::Double:
        m_fault = sqlite3_bind_double(m_statement, place, binding.value.toDouble());
        break;
    case QMetaType::QByteArray: {
        const QByteArray bytes = binding.value.toByteArray();
        m_fault = sqlite3_bind_blob64(m_statement, place, bytes.constData(), sqlite3_uint64(bytes.size()),
                                      SQLITE_TRANSIENT);
        break;
    }
    default: {
        const QByteArray words = binding.value.toString().toUtf8();
        m_fault = sqlite3_bind_text64(m_statement, place, words.constData(), sqlite3_uint64(words.size()),
                                      SQLITE_TRANSIENT, SQLITE_UTF8);
        break;
    }
    }
}

base::Result<bool> Statements::Run::step()
{
    if (m_fault != SQLITE_OK)
        return errorOf(m_statements.m_database);
    if (m_statement == nullptr) // a comment alone
        return false;
    const int reached = sqlite3_step(m_statement);
    if (reached != SQLITE_ROW && reached != SQLITE_DONE)
        return errorOf(m_statements.m_database);
    return reached == SQLITE_ROW;
}

int Statements::Run::touched() const
{
    return sqlite3_changes(m_statements.m_database);
}

Error errorOf(int extendedCode, const QString& words)
{
    // https://www.sqlite.org/rescode.html; the low byte is the primary code.
    switch (extendedCode & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return {
            ErrorKind::Unwritable,
            base::said(
                "Another program is writing to the records, so nothing was saved; try again in a moment."),
            words};
    case SQLITE_READONLY:
        return {ErrorKind::Unwritable, base::said("The records file is read-only."), words};
    case SQLITE_IOERR:
        return {ErrorKind::Unwritable, base::said("The disk did not answer, so nothing was saved."), words};
    case SQLITE_FULL:
        return {ErrorKind::Unwritable, base::said("The disk is full, so nothing was saved."), words};
    case SQLITE_CANTOPEN:
        return {ErrorKind::Unwritable, base::said("The records file cannot be opened."), words};
    case SQLITE_CORRUPT:
        return {ErrorKind::Unreadable, base::said("The records file is damaged; restore it from a copy."),
                words};
    case SQLITE_NOTADB:
        return {ErrorKind::Foreign, base::said("This is not a records file."), words};
    case SQLITE_CONSTRAINT:
        if (extendedCode == SQLITE_CONSTRAINT_TRIGGER) // raised by one of our triggers, in our own words
            return {ErrorKind::Refused, base::titled(words), words};
        return {ErrorKind::Invalid, base::said("The records do not allow this entry, so nothing was saved."),
                words};
    case SQLITE_INTERRUPT:
        return base::stopped(words);
    default:
        return {ErrorKind::Unreadable, base::said("The records file does not hold what it should."), words};
    }
}

Error errorOf(sqlite3* database)
{
    if (database == nullptr)
        return {ErrorKind::Unwritable,
                base::said("The records file is not open any more; close the program and start it again."),
                {}};
    return errorOf(sqlite3_extended_errcode(database), QString::fromUtf8(sqlite3_errmsg(database)));
}

} // namespace storage
