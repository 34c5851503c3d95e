#include "core/storage/audit_trail.h"

#include "core/storage/query.h"

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

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

} // namespace

base::Result<void> note(const Store& store, const QString& action, const QString& kind, const QString& record)
{
    return note(store, action, kind, record, store.access().now());
}

base::Result<void> note(const Store& store, const QString& action, const QString& kind, const QString& record,
                        const QDateTime& at)
{
    const QString sql = uR"(
        INSERT INTO audit_trail (number, made_at, who, action, kind, record)
        SELECT COALESCE(MAX(number), 0) + 1, :at, :who, :action, :kind, :record FROM audit_trail)"_s;
    auto noted = write(store, sql,
                       {{":at", instant(at)},
                        {":who", text(store.access().who)},
                        {":action", action},
                        {":kind", kind},
                        {":record", record}});
    if (!noted)
        return noted.error();
    return {};
}

base::Result<std::vector<AuditEntry>> AuditTrail::ofRecord(const QString& record) const
{
    return entries(
        m_store,
        u"SELECT made_at, who, action, kind, record FROM audit_trail WHERE record = :record ORDER BY number"_s,
        {{":record", record}});
}

base::Result<std::vector<AuditEntry>> AuditTrail::newest(int most) const
{
    return entries(
        m_store,
        u"SELECT made_at, who, action, kind, record FROM audit_trail ORDER BY number DESC LIMIT :most"_s,
        {{":most", most}});
}

} // namespace storage
