#pragma once

#include "core/base/id.h"
#include "core/base/result.h"
#include "core/storage/statements.h"
#include "core/storage/store.h"

#include <functional>
#include <optional>
#include <vector>

struct sqlite3_value;

namespace storage
{

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
    explicit Row(sqlite3_stmt* row) : m_row(row) {}

    /// As it lies there, in UTF-8; gone with the row.
    QByteArrayView view();
    QString text() { return QString::fromUtf8(view()); }
    QStringList lines();
    qint64 whole64();
    int whole() { return int(whole64()); }
    bool flag() { return whole() == 1; }
    std::optional<double> numberIfAny();
    std::optional<qint64> wholeIfAny();
    std::optional<QDate> dayIfAny();
    QDateTime instant(); ///< invalid where there is none
    QByteArray bytes() { return view().toByteArray(); }
    template <class Record>
    base::Id<Record> key()
    {
        return {text()};
    }

private:
    sqlite3_value* next();

    sqlite3_stmt* m_row;
    int m_column = 0;
};

/// Runs a statement that writes; gives back how many rows it touched.
base::Result<int> write(const Store& store, const QString& sql, const std::vector<Binding>& bindings);

/// Runs a SELECT and hands over each row, until one is refused.
base::Result<void> read(const Store& store, const QString& sql, const std::vector<Binding>& bindings,
                        const std::function<base::Result<void>(Row&)>& take);

/// The whole number a SELECT answers with in the first column of its last row; nothing where it has none.
base::Result<std::optional<qint64>> readWhole(const Store& store, const QString& sql,
                                              const std::vector<Binding>& bindings);

} // namespace storage
