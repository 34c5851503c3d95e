#include "core/storage/migrations.h"

#include "core/storage/migration_functions.h"
#include "core/storage/query.h"
#include "core/storage/statements.h"
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

namespace
{

/// The number a SELECT on a table answers with; 0 where there is no such table.
base::Result<qint64> numberFrom(const Store& store, const QString& table, const QString& sql)
{
    const auto isThere =
        readWhole(store, u"SELECT COUNT(*) FROM sqlite_master WHERE type = 'table' AND name = :name"_s,
                  {{":name", table}});
    const auto number = isThere && *isThere != 0 ? readWhole(store, sql, {}) : isThere;
    if (!number)
        return number.error();
    return number->value_or(0);
}

} // namespace

base::Result<int> schemaVersion(const Store& store)
{
    const auto version =
        numberFrom(store, u"schema_versions"_s, u"SELECT MAX(version) FROM schema_versions"_s);
    if (!version)
        return version.error();
    return int(*version);
}

namespace
{

base::Result<void> refuseDifference(Row& row)
{
    return base::Error{base::ErrorKind::Unreadable,
                       base::said("A value did not come through whole when the records were brought up to "
                                  "date, so they stay as they were."),
                       row.text()};
}

} // namespace

base::Result<void> migrate(Store& store, const std::vector<Migration>& chain)
{
    const auto findings = numberFrom(store, u"findings"_s, u"SELECT COUNT(*) FROM findings"_s);
    if (!findings)
        return findings.error();
    // Each finding is a step when it is brought over and when it is compared.
    const MigrationFunctions functions(store.statements().database(), 2 * *findings, store.access().progress);
    for (const Migration& migration : chain) {
        auto migrated = together(store, [&]() -> base::Result<void> {
            // Asked again inside the transaction: another program may have migrated while this one waited.
            const auto version = schemaVersion(store);
            if (!version)
                return version.error();
            if (*version >= migration.version)
                return {};
            for (const QString& statement : migration.statements) {
                if (auto done = read(store, statement, {}, refuseDifference); !done)
                    return done;
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
