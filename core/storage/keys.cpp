#include "core/storage/keys.h"

#include "core/storage/query.h"

#include <QCryptographicHash>
#include <QtEndian>

using namespace Qt::StringLiterals;

namespace storage
{

base::Result<qint64> nextKey(const Store& store, const QString& table)
{
    const auto next = readWhole(store, u"SELECT COALESCE(MAX(key), 0) + 1 FROM %1"_s.arg(table), {});
    if (!next)
        return next.error();
    return next->value_or(1);
}

qint64 digestOf(const QByteArray& words)
{
    return qFromBigEndian<qint64>(QCryptographicHash::hash(words, QCryptographicHash::Sha256).constData());
}

base::Result<qint64> keyOfText(const Store& store, const QString& table, const QString& column,
                               const QByteArray& words)
{
    const qint64 digest = digestOf(words);
    std::optional<qint64> known;
    auto found = read(store, u"SELECT key, %1 FROM %2 WHERE digest = :digest"_s.arg(column, table),
                      {{":digest", digest}}, [&](Row& row) -> base::Result<void> {
                          const qint64 key = row.whole64();
                          if (row.view() == words)
                              known = key;
                          return {};
                      });
    if (!found)
        return found.error();
    if (known)
        return *known;
    const auto key = nextKey(store, table);
    if (!key)
        return key.error();
    auto written =
        write(store, u"INSERT INTO %1 (key, digest, %2) VALUES (:key, :digest, :words)"_s.arg(table, column),
              {{":key", *key}, {":digest", digest}, {":words", QString::fromUtf8(words)}});
    if (!written)
        return written.error();
    return *key;
}

base::Result<qint64> keyOfName(const Store& store, const QString& table, const QString& column,
                               const QString& name)
{
    const auto known = readWhole(store, u"SELECT key FROM %1 WHERE %2 = :name"_s.arg(table, column),
                                 {{":name", text(name)}});
    if (!known)
        return known.error();
    if (*known)
        return **known;
    const auto key = nextKey(store, table);
    if (!key)
        return key;
    auto written = write(store, u"INSERT INTO %1 (key, %2) VALUES (:key, :name)"_s.arg(table, column),
                         {{":key", *key}, {":name", text(name)}});
    if (!written)
        return written.error();
    return key;
}

} // namespace storage
