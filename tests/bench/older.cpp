#include "tests/bench/older.h"

#include "core/storage/migrations.h"
#include "core/storage/store.h"

#include <QTextStream>
#include <QTimeZone>

#include <sqlite3.h>

namespace bench
{

namespace
{

constexpr int olderSchema = 6;

const char* const facts = R"(
    DROP TRIGGER findings_signed_insert;
    DROP TRIGGER trials_signed_insert;
    DROP TRIGGER visit_conditions_signed_insert;
    INSERT INTO patients SELECT * FROM newer.patients;
    INSERT INTO visits
        (id, revision, series, version, patient, day, state, form, form_made, conditions_confirmed, author_name,
         author_role, author_registration, signed_at, amendment_reason)
    SELECT own.id, own.revision, firsts.id, own.version, own.patient, own.day, own.state, own.form,
           COALESCE(document, ''), own.conditions_confirmed, own.author_name, own.author_role, own.author_registration,
           own.signed_at, own.amendment_reason
    FROM newer.visits own JOIN newer.visits firsts ON firsts.key = own.series
    LEFT JOIN newer.forms_made ON forms_made.key = own.form_made ORDER BY own.key;
    INSERT INTO visit_conditions (visit, name, value)
    SELECT visits.id, one.key, one.value FROM newer.visits
    JOIN newer.condition_sets ON condition_sets.key = visits.conditions, json_each(condition_sets.conditions) one;
    CREATE TEMP TABLE made AS
    SELECT lower(hex(randomblob(16))) AS id, visits.id AS visit_id, findings.*
    FROM newer.visits CROSS JOIN newer.findings ON findings.visit = visits.key;
    INSERT INTO findings
        (id, revision, visit, position, measure, side, state, number, unit, grade, choice, reason, cap_reached,
         signs, note)
    SELECT id, 1, visit_id, position, measure, side, state, number, unit, grade, choice, reason, cap_reached, signs,
           note FROM made;
    INSERT INTO trials (finding, number, value)
    SELECT made.id, one.key + 1, one.value FROM made, json_each(made.trials) one WHERE made.trials IS NOT NULL;
    INSERT INTO audit_trail (number, made_at, who, action, kind, record)
    SELECT number, made_at, audit_people.who, action, kind, audit_records.record FROM newer.audit_trail
    JOIN newer.audit_people ON audit_people.key = audit_trail.who
    JOIN newer.audit_records ON audit_records.key = audit_trail.record ORDER BY number;
)";

} // namespace

bool makeOlder(const QString& path, const QString& newer)
{
    auto chain = storage::chain(QStringLiteral(":/schema"));
    std::erase_if(chain, [](const storage::Migration& one) { return one.version > olderSchema; });
    const auto now = [] { return QDateTime(QDate(2026, 1, 5), QTime(9, 0), QTimeZone::utc()); };
    if (!storage::Store::open(path, {QStringLiteral("bench"), now}, records::Opening::MayCreate, chain))
        return false;
    sqlite3* database = nullptr;
    const auto run = [&](const QString& sql) {
        return sqlite3_exec(database, sql.toUtf8().constData(), nullptr, nullptr, nullptr) == SQLITE_OK;
    };
    const bool isMade =
        sqlite3_open(path.toUtf8().constData(), &database) == SQLITE_OK &&
        run(QStringLiteral("PRAGMA synchronous = OFF; ATTACH '%1' AS newer; BEGIN").arg(newer)) &&
        run(QString::fromLatin1(facts)) && run(QStringLiteral("COMMIT"));
    if (!isMade)
        QTextStream(stderr) << sqlite3_errmsg(database) << '\n';
    sqlite3_close(database);
    return isMade;
}

} // namespace bench
