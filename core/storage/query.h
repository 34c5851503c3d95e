#pragma once

#include "core/base/id.h"
#include "core/base/result.h"
#include "core/storage/store.h"

#include <QSqlQuery>

#include <functional>
#include <optional>
#include <vector>

namespace storage
{

/// What stands for one `:name` of a statement.
struct Binding {
    const char* name;
    QVariant value;
};

/// How values are stored. Text loses outer spaces and U+0000; an absent date or number is NULL.
QVariant text(const QString& words);
QVariant lines(const QStringList& words); ///< one a line
QVariant day(std::optional<QDate> date);
QVariant instant(const QDateTime& at);
QVariant number(std::optional<double> value);
QVariant flag(bool isSet);
template <class Record>
QVariant key(const base::Id<Record>& id)
{
    return text(id.text);
}

/// Whether the database can hold the number: neither NaN nor infinite.
bool isStorable(std::optional<double> value);

/// One row of an answer, read column by column in the order of the SELECT.
class Row
{
public:
    explicit Row(const QSqlQuery& query) : m_query(query) {}

    QString text() { return next().toString(); }
    QStringList lines();
    int whole() { return next().toInt(); }
    bool flag() { return whole() == 1; }
    double number() { return next().toDouble(); }
    std::optional<double> numberIfAny();
    std::optional<int> wholeIfAny();
    std::optional<QDate> dayIfAny();
    QDateTime instant(); ///< invalid where there is none
    QByteArray bytes() { return next().toByteArray(); }
    template <class Record>
    base::Id<Record> key()
    {
        return {text()};
    }

private:
    QVariant next() { return m_query.value(m_column++); }

    const QSqlQuery& m_query;
    int m_column = 0;
};

/// Runs a statement that writes; gives back how many rows it touched.
base::Result<int> write(const Store& store, const QString& sql, const std::vector<Binding>& bindings);

/// Runs a SELECT and hands over each row, until one is refused.
base::Result<void> read(const Store& store, const QString& sql, const std::vector<Binding>& bindings,
                        const std::function<base::Result<void>(Row&)>& take);

} // namespace storage
