#include "core/storage/query.h"

#include "core/base/text.h"

#include <QSqlError>

#include <cmath>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

base::Result<QSqlQuery> run(const Store& store, const QString& sql, const std::vector<Binding>& bindings)
{
    QSqlQuery query(store.database());
    query.setForwardOnly(true);
    bool isDone = true;
    if (bindings.empty()) { // prepared, a colon in a comment or a trigger would be taken for a name
        isDone = query.exec(sql);
    } else {
        isDone = query.prepare(sql);
        for (const Binding& binding : bindings)
            query.bindValue(QString::fromLatin1(binding.name), binding.value);
        isDone = isDone && query.exec();
    }
    if (!isDone)
        return Store::errorFrom(query.lastError());
    return query;
}

} // namespace

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

QStringList Row::lines()
{
    return text().split(u'\n', Qt::SkipEmptyParts);
}

std::optional<double> Row::numberIfAny()
{
    const QVariant value = next();
    return value.isNull() ? std::nullopt : std::optional(value.toDouble());
}

std::optional<int> Row::wholeIfAny()
{
    const QVariant value = next();
    return value.isNull() ? std::nullopt : std::optional(value.toInt());
}

std::optional<QDate> Row::dayIfAny()
{
    const QVariant value = next();
    return value.isNull() ? std::nullopt : std::optional(QDate::fromString(value.toString(), Qt::ISODate));
}

QDateTime Row::instant()
{
    return QDateTime::fromString(text(), Qt::ISODateWithMs);
}

base::Result<int> write(const Store& store, const QString& sql, const std::vector<Binding>& bindings)
{
    auto query = run(store, sql, bindings);
    if (!query)
        return query.error();
    return query->numRowsAffected();
}

base::Result<void> read(const Store& store, const QString& sql, const std::vector<Binding>& bindings,
                        const std::function<base::Result<void>(Row&)>& take)
{
    auto query = run(store, sql, bindings);
    if (!query)
        return query.error();
    while (query->next()) {
        Row row(*query);
        if (auto taken = take(row); !taken)
            return taken;
    }
    if (query->lastError().isValid())
        return Store::errorFrom(query->lastError());
    return {};
}

} // namespace storage
