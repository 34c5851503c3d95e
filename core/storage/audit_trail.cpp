#include "core/storage/audit_trail.h"

#include "core/storage/keys.h"
#include "core/storage/query.h"

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

const QString everyEntry = uR"(
    SELECT made_at, audit_people.who, action, kind, audit_records.record FROM audit_trail
    JOIN audit_people ON audit_people.key = audit_trail.who
    JOIN audit_records ON audit_records.key = audit_trail.record)"_s;

base::Result<std::vector<AuditEntry>> entries(const Store& store, const QString& sql,
                                              const std::vector<Binding>& bindings)
{
    std::vector<AuditEntry> found;
    auto done = read(store, sql, bindings, [&](Row& row) -> base::Result<void> {
        found.push_back({row.instant(), row.text(), row.text(), row.text(), row.text()});
        return {};
    });
    if (!done)
        return done.error();
    return found;
}

base::Result<void> noteAll(const Store& store, const QStringList& actions, const QString& kind,
                           const QString& record, const QDateTime& at)
{
    const auto person = keyOfName(store, u"audit_people"_s, u"who"_s, store.access().who);
    const auto recordKey = person ? keyOfName(store, u"audit_records"_s, u"record"_s, record) : person;
    if (!recordKey)
        return recordKey.error();
    static const QString sql = uR"(
        INSERT INTO audit_trail (number, made_at, who, action, kind, record)
        SELECT COALESCE(MAX(number), 0) + 1, :at, :who, :action, :kind, :record FROM audit_trail)"_s;
    for (const QString& action : actions) {
        const auto noted = write(store, sql,
                                 {{":at", instant(at)},
                                  {":who", *person},
                                  {":action", action},
                                  {":kind", kind},
                                  {":record", *recordKey}});
        if (!noted)
            return noted.error();
    }
    return {};
}

} // namespace

base::Result<void> note(const Store& store, const QString& action, const QString& kind, const QString& record)
{
    return note(store, action, kind, record, store.access().now());
}

base::Result<void> note(const Store& store, const QStringList& actions, const QString& kind,
                        const QString& record)
{
    return noteAll(store, actions, kind, record, store.access().now());
}

base::Result<void> note(const Store& store, const QString& action, const QString& kind, const QString& record,
                        const QDateTime& at)
{
    return noteAll(store, {action}, kind, record, at);
}

base::Result<std::vector<AuditEntry>> AuditTrail::ofRecord(const QString& record) const
{
    return entries(m_store, everyEntry + u" WHERE audit_records.record = :record ORDER BY number"_s,
                   {{":record", record}});
}

base::Result<std::vector<AuditEntry>> AuditTrail::newest(int most) const
{
    return entries(m_store, everyEntry + u" ORDER BY number DESC LIMIT :most"_s, {{":most", most}});
}

} // namespace storage
