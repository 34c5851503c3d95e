#include "core/storage/red_flags.h"

#include "core/storage/query.h"

#include <algorithm>
#include <utility>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

const QString minuteFormat = u"HH:mm"_s;

} // namespace

base::Result<void> putRedFlags(const Store& store, qint64 visit, const records::RedFlags& flags)
{
    if (auto removed = write(store, u"DELETE FROM red_flags WHERE visit = :visit"_s, {{":visit", visit}});
        !removed)
        return removed.error();
    for (const auto& [id, answer] : flags) {
        const auto& said = answer.acknowledged;
        auto written = write(store, uR"(
            INSERT INTO red_flags (visit, flag, answer, action, acted_on, acted_at)
            VALUES (:visit, :flag, :answer, :action, :acted_on, :acted_at))"_s,
                             {{":visit", visit},
                              {":flag", text(id)},
                              {":answer", text(answer.isYes ? u"yes"_s : u"no"_s)},
                              {":action", text(said ? said->action : QString())},
                              {":acted_on", said ? day(said->day) : QVariant()},
                              {":acted_at", said ? text(said->time.toString(minuteFormat)) : QVariant()}});
        if (!written)
            return written.error();
    }
    return {};
}

base::Result<void> addRedFlags(const Store& store, const QString& condition, const QString& key,
                               const std::vector<qint64>& keys, std::vector<records::Visit>& visits)
{
    const QString sql = uR"(
        SELECT red_flags.visit, flag, answer, action, acted_on, acted_at
        FROM visits JOIN red_flags ON red_flags.visit = visits.key WHERE %1)"_s;
    return read(store, sql.arg(condition), {{":key", key}}, [&](Row& row) -> base::Result<void> {
        const auto place = std::ranges::find(keys, row.whole64()) - keys.begin();
        const QString id = row.text();
        records::RedFlagAnswer answer{row.text() == u"yes"_s, std::nullopt};
        const QString action = row.text();
        const auto on = row.dayIfAny();
        const QTime at = QTime::fromString(row.text(), minuteFormat);
        if (!action.isEmpty())
            answer.acknowledged = {action, on.value_or(QDate()), at};
        if (std::cmp_less(place, visits.size()))
            visits[size_t(place)].redFlags[id] = answer;
        return {};
    });
}

} // namespace storage
