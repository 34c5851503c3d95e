#include "core/storage/migrations.h"

#include "core/storage/query.h"
#include "core/storage/transaction.h"

#include <QDir>
#include <QRegularExpression>

using namespace Qt::StringLiterals;

namespace storage
{

std::vector<Migration> chain(const QString& folder)
{
    // A semicolon before an empty line, so that a trigger's own semicolons do not divide it.
    static const QRegularExpression statementEnd(u";\\s*\\n\\s*\\n"_s);
    std::vector<Migration> migrations;
    for (const QFileInfo& info : QDir(folder).entryInfoList({u"*.sql"_s}, QDir::Files, QDir::Name)) {
        QFile file(info.filePath());
        if (!file.open(QIODevice::ReadOnly))
            continue;
        const QString sql = QString::fromUtf8(file.readAll()).trimmed();
        migrations.push_back({info.fileName().left(4).toInt(), sql.split(statementEnd, Qt::SkipEmptyParts)});
    }
    return migrations;
}

base::Result<int> schemaVersion(const Store& store)
{
    if (!store.database().tables().contains(u"schema_versions"_s))
        return 0;
    int version = 0;
    auto found = read(store, u"SELECT COALESCE(MAX(version), 0) FROM schema_versions"_s, {},
                      [&](Row& row) -> base::Result<void> {
                          version = row.whole();
                          return {};
                      });
    if (!found)
        return found.error();
    return version;
}

base::Result<void> migrate(Store& store, const std::vector<Migration>& chain)
{
    for (const Migration& migration : chain) {
        auto migrated = together(store, [&]() -> base::Result<void> {
            // Asked again inside the transaction: another program may have migrated while this one waited.
            const auto version = schemaVersion(store);
            if (!version)
                return version.error();
            if (*version >= migration.version)
                return {};
            for (const QString& statement : migration.statements) {
                if (auto done = write(store, statement, {}); !done)
                    return done.error();
            }
            auto noted =
                write(store, u"INSERT INTO schema_versions (version, migrated_at) VALUES (:version, :at)"_s,
                      {{":version", migration.version}, {":at", instant(store.access().now())}});
            if (!noted)
                return noted.error();
            return {};
        });
        if (!migrated)
            return migrated;
    }
    return {};
}

} // namespace storage
