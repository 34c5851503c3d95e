#include "core/storage/condition_sets.h"

#include "core/storage/keys.h"
#include "core/storage/query.h"

#include <QJsonDocument>
#include <QJsonObject>

using namespace Qt::StringLiterals;

namespace storage
{

base::Result<std::optional<qint64>> keyOfSet(const Store& store, const records::Conditions& conditions)
{
    if (conditions.isEmpty())
        return std::optional<qint64>();
    QJsonObject all;
    for (const auto& [name, value] : conditions.asKeyValueRange())
        all[text(name).toString()] = text(value).toString();
    const auto key = keyOfText(store, u"condition_sets"_s, u"conditions"_s,
                               QJsonDocument(all).toJson(QJsonDocument::Compact));
    if (!key)
        return key.error();
    return std::optional(*key);
}

base::Result<std::vector<qint64>> setsOfVisit(const Store& store, qint64 visit)
{
    std::vector<qint64> sets;
    const QString sql = uR"(
        SELECT conditions FROM visits WHERE key = :visit AND conditions IS NOT NULL
        UNION SELECT exceptions FROM findings WHERE visit = :visit AND exceptions IS NOT NULL)"_s;
    auto found = read(store, sql, {{":visit", visit}}, [&](Row& row) -> base::Result<void> {
        sets.push_back(row.whole64());
        return {};
    });
    if (!found)
        return found.error();
    return sets;
}

base::Result<void> dropUnused(const Store& store, const std::vector<qint64>& sets)
{
    for (const qint64 set : sets) {
        auto dropped = write(store, uR"(
            DELETE FROM condition_sets
            WHERE key = :key AND NOT EXISTS (SELECT 1 FROM visits WHERE conditions = :key)
              AND NOT EXISTS (SELECT 1 FROM findings WHERE exceptions = :key))"_s,
                             {{":key", set}});
        if (!dropped)
            return dropped.error();
    }
    return {};
}

} // namespace storage
