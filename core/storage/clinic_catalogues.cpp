#include "core/storage/clinic_catalogues.h"

#include "core/storage/audit_trail.h"
#include "core/storage/query.h"
#include "core/storage/transaction.h"

#include <limits>

using namespace Qt::StringLiterals;

namespace storage
{

base::Result<std::optional<ClinicCatalogue>> ClinicCatalogues::newest(std::optional<int> before) const
{
    const QString sql = uR"(
        SELECT version, document, who, saved_at FROM clinic_catalogues
        WHERE version < :before ORDER BY version DESC LIMIT 1)"_s;
    std::optional<ClinicCatalogue> newest;
    auto found = read(m_store, sql, {{":before", before.value_or(std::numeric_limits<int>::max())}},
                      [&](Row& row) -> base::Result<void> {
                          newest = {row.whole(), row.text().toUtf8(), row.text(), row.instant()};
                          return {};
                      });
    if (!found)
        return found.error();
    return newest;
}

base::Result<void> ClinicCatalogues::add(const QByteArray& document)
{
    return together(m_store, [&]() -> base::Result<void> {
        const QString sql = uR"(
            INSERT INTO clinic_catalogues (version, document, who, saved_at)
            SELECT COALESCE(MAX(version), 0) + 1, :document, :who, :at FROM clinic_catalogues)"_s;
        auto added = write(m_store, sql,
                           {{":document", text(QString::fromUtf8(document))},
                            {":who", text(m_store.access().who)},
                            {":at", instant(m_store.access().now())}});
        if (!added)
            return added.error();
        return note(m_store, u"changed"_s, u"clinic"_s, u"clinic"_s);
    });
}

} // namespace storage
