#include "core/storage/query.h"

#include "core/base/text.h"

#include <sqlite3.h>

#include <cmath>

using namespace Qt::StringLiterals;

namespace storage
{

QVariant text(const QString& words)
{
    const QString tidy = base::tidied(words);
    return tidy.isNull() ? u""_s : tidy; // a null string would be stored as NULL
}

QVariant lines(const QStringList& words)
{
    return text(words.join(u'\n'));
}

QVariant day(std::optional<QDate> date)
{
    return date ? QVariant(date->toString(Qt::ISODate)) : QVariant();
}

QVariant instant(const QDateTime& at)
{
    return at.isValid() ? QVariant(at.toUTC().toString(Qt::ISODateWithMs)) : QVariant();
}

QVariant number(std::optional<double> value)
{
    return value ? QVariant(*value) : QVariant();
}

QVariant flag(bool isSet)
{
    return isSet ? 1 : 0;
}

bool isStorable(std::optional<double> value)
{
    return !value || std::isfinite(*value);
}

namespace
{

bool isNull(sqlite3_value* value)
{
    return sqlite3_value_type(value) == SQLITE_NULL;
}

QByteArrayView viewOf(sqlite3_value* value)
{
    const auto* bytes = static_cast<const char*>(sqlite3_value_blob(value));
    return {bytes, sqlite3_value_bytes(value)};
}

} // namespace

/// Each column is fetched once. Nothing else uses the connection, so its values need no protection
/// (https://www.sqlite.org/c3ref/value.html).
sqlite3_value* Row::next()
{
    return sqlite3_column_value(m_row, m_column++);
}

QByteArrayView Row::view()
{
    return viewOf(next());
}

QStringList Row::lines()
{
    const QString words = text();
    return words.isEmpty() ? QStringList() : words.split(u'\n', Qt::SkipEmptyParts);
}

qint64 Row::whole64()
{
    return sqlite3_value_int64(next());
}

std::optional<double> Row::numberIfAny()
{
    sqlite3_value* value = next();
    return isNull(value) ? std::nullopt : std::optional(sqlite3_value_double(value));
}

std::optional<qint64> Row::wholeIfAny()
{
    sqlite3_value* value = next();
    return isNull(value) ? std::nullopt : std::optional<qint64>(sqlite3_value_int64(value));
}

std::optional<QDate> Row::dayIfAny()
{
    sqlite3_value* value = next();
    return isNull(value) ? std::nullopt
                         : std::optional(QDate::fromString(QString::fromUtf8(viewOf(value)), Qt::ISODate));
}

QDateTime Row::instant()
{
    const QString words = text();
    return words.isEmpty() ? QDateTime() : QDateTime::fromString(words, Qt::ISODateWithMs);
}

base::Result<int> write(const Store& store, const QString& sql, const std::vector<Binding>& bindings)
{
    Statements::Run run(store.statements(), sql, bindings);
    if (const auto done = run.step(); !done)
        return done.error();
    return run.touched();
}

base::Result<void> read(const Store& store, const QString& sql, const std::vector<Binding>& bindings,
                        const std::function<base::Result<void>(Row&)>& take)
{
    Statements::Run run(store.statements(), sql, bindings);
    auto more = run.step();
    while (more && *more) {
        Row row(run.row());
        if (auto taken = take(row); !taken)
            return taken;
        more = run.step();
    }
    if (!more)
        return more.error();
    return {};
}

base::Result<std::optional<qint64>> readWhole(const Store& store, const QString& sql,
                                              const std::vector<Binding>& bindings)
{
    std::optional<qint64> number;
    auto found = read(store, sql, bindings, [&](Row& row) -> base::Result<void> {
        number = row.wholeIfAny();
        return {};
    });
    if (!found)
        return found.error();
    return number;
}

} // namespace storage
