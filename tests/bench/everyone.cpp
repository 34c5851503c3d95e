#include "tests/bench/everyone.h"

#include "core/catalogue/own.h"
#include "core/judging/change.h"
#include "core/records/visit.h"
#include "tests/bench/clinic.h"
#include "tests/bench/older.h"

#include "core/storage/store.h"

#include <QElapsedTimer>
#include <QFileInfo>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <QTextStream>
#include <QTimeZone>

#include <benchmark/benchmark.h>
#include <sqlite3.h>
#include <sys/resource.h>

#include <future>

namespace bench
{

namespace
{

constexpr int visitsEach = 20;
constexpr int measuresEach = 40;
constexpr int differingSets = 400;
constexpr int atOnce = 64; ///< patients handed to a thread together

/// Whether all visits have the same conditions, or each of a person's its own.
enum class Conditions { Equal, Vary };

const char* const visitsOfEveryone = R"(
    CREATE TEMP TABLE made AS
    WITH RECURSIVE n (k) AS (SELECT 0 UNION ALL SELECT k + 1 FROM n WHERE k < 19)
    SELECT ROW_NUMBER() OVER (ORDER BY k * 30 + patients.rowid % 30, patients.rowid) AS key,
           lower(hex(randomblob(16))) AS id, patients.id AS patient, patients.rowid AS person, k FROM patients, n;
    INSERT INTO visits
        (key, id, revision, series, version, patient, day, state, form, form_made, conditions, conditions_confirmed,
         author_name, author_role, author_registration, signed_at, amendment_reason)
    SELECT key, id, 1, key, 1, patient, date('2020-01-06', (k * 30 + person % 30) || ' days'), 'draft', 'neurological', 1,
           (person * 7 + k) % (SELECT COUNT(*) FROM condition_sets) + 1, 1, '', '', '', NULL, ''
    FROM made ORDER BY key;
    INSERT INTO findings
        (visit, measure, side, position, state, number, unit, grade, choice, trials, reason, cap_reached, signs, note)
    SELECT key, measure, side, place, 'done', number, unit, CASE WHEN unit IS NULL THEN abs(random() % 3) END, NULL,
           CASE WHEN number IS NULL OR trials < 2 THEN NULL
                WHEN trials = 2 THEN '[' || number || ',' || number || ']'
                ELSE '[' || number || ',' || number || ',' || number || ']' END,
           '', 0, '', CASE WHEN (key + place) % 10 = 0 THEN 'slowly, with a rest in between' ELSE '' END
    FROM (SELECT made.key, wanted.*, CASE WHEN unit IS NOT NULL THEN round(middle + abs(random() % 9) * step, 3) END
          AS number FROM made, wanted)
    ORDER BY key, measure, side;
    UPDATE visits SET state = 'signed', author_name = 'A. Invented', signed_at = day || 'T10:00:00.000Z';
    INSERT INTO audit_people (key, who) VALUES (1, 'A. Invented');
    INSERT INTO audit_records (key, record) SELECT key, id FROM made ORDER BY key;
    INSERT INTO audit_trail (number, made_at, who, action, kind, record)
    SELECT ROW_NUMBER() OVER (ORDER BY key, act), '2026-01-05T10:00:00.000Z', 1, word, 'visit', key
    FROM made, (SELECT 1 AS act, 'created' AS word UNION ALL SELECT 2, 'signed') acts ORDER BY key, act;
)";

/// Every table the judgement needs.
const char* const tables[] = {"patients",           "visits",          "findings", "trials",
                              "finding_conditions", "visit_conditions"};

bool run(sqlite3* database, const QString& sql)
{
    return sqlite3_exec(database, sql.toUtf8().constData(), nullptr, nullptr, nullptr) == SQLITE_OK;
}

/// The measures everyone is examined with, as a table the statements above can join.
QString wanted(const catalogue::Catalogue& catalogue)
{
    QString sql = QStringLiteral(
        "CREATE TEMP TABLE wanted (place, measure, side, unit, middle REAL, step REAL, trials);");
    int place = 0;
    for (const catalogue::Measure& measure : catalogue.measures) {
        const bool isGrade = measure.kind == catalogue::Kind::Grade;
        if (place == measuresEach || measure.kind == catalogue::Kind::Choice)
            continue;
        const double step = measure.step.value_or(1);
        const double middle =
            std::round((measure.lowest.value_or(0) + measure.highest.value_or(100)) / 4 / step) * step;
        sql += QStringLiteral("INSERT INTO wanted VALUES (%1, '%2', '%3', %4, %5, %6, %7);")
                   .arg(++place)
                   .arg(measure.id, measure.hasSides ? QStringLiteral("right") : QStringLiteral("none"),
                        isGrade ? QStringLiteral("NULL") : u'\'' + values::code(measure.unit) + u'\'')
                   .arg(middle)
                   .arg(step)
                   .arg(measure.trials);
    }
    return sql;
}

QString quoted(const QByteArray& words)
{
    return u'\'' + QString::fromUtf8(words).replace(u'\'', QStringLiteral("''")) + u'\'';
}

/// One set of conditions, or many that differ in what a soft condition says, so that every visit of a person
/// has another.
QString conditionSets(const catalogue::Catalogue& catalogue, Conditions kind)
{
    QString sql;
    const int sets = kind == Conditions::Equal ? 1 : differingSets;
    for (int set = 0; set < sets; ++set) {
        QJsonObject all;
        int place = 0;
        const records::Conditions conditions = everyCondition(catalogue);
        for (const auto& [name, value] : conditions.asKeyValueRange()) {
            const catalogue::Condition* condition = catalogue.condition(name);
            const bool varies = kind == Conditions::Vary && ++place % 3 == 0 && condition->options.size() > 1;
            all[name] =
                varies ? condition->options.at(size_t(set + place) % condition->options.size()).key : value;
        }
        all[QStringLiteral("remark")] = QString::number(set);
        sql += QStringLiteral("INSERT INTO condition_sets VALUES (%1, %1, %2);")
                   .arg(set + 1)
                   .arg(quoted(QJsonDocument(all).toJson(QJsonDocument::Compact)));
    }
    return sql;
}

QString formMade(const catalogue::Catalogue& catalogue)
{
    const auto form =
        std::ranges::find(catalogue.forms, QStringLiteral("neurological"), &catalogue::Form::id);
    return QStringLiteral("INSERT INTO forms_made VALUES (1, 1, %1);")
        .arg(quoted(catalogue::written(*form).toUtf8()));
}

bool make(const QString& path, const catalogue::Catalogue& catalogue, int patients, Conditions kind)
{
    const auto now = [] { return QDateTime(QDate(2026, 1, 5), QTime(9, 0), QTimeZone::utc()); };
    if (!storage::Store::open(path, {QStringLiteral("bench"), now}, records::Opening::MayCreate))
        return false;
    sqlite3* database = nullptr;
    const QString people = QStringLiteral(R"(
        WITH RECURSIVE n (i) AS (SELECT 0 UNION ALL SELECT i + 1 FROM n WHERE i + 1 < %1)
        INSERT INTO patients
        SELECT lower(hex(randomblob(16))), 1, 'B-' || i, 'Invented', 'Person', '1950-01-01', 'unknown', 'right', NULL,
               NULL, '', 'stroke-chronic', NULL, '', '', '', '' FROM n)")
                               .arg(patients);
    const bool isMade = sqlite3_open(path.toUtf8().constData(), &database) == SQLITE_OK &&
                        run(database, QStringLiteral("PRAGMA synchronous = OFF; BEGIN")) &&
                        run(database, people) && run(database, wanted(catalogue)) &&
                        run(database, conditionSets(catalogue, kind)) && run(database, formMade(catalogue)) &&
                        run(database, QString::fromLatin1(visitsOfEveryone)) &&
                        run(database, QStringLiteral("COMMIT; VACUUM"));
    if (!isMade)
        QTextStream(stderr) << sqlite3_errmsg(database) << '\n';
    sqlite3_close(database);
    return isMade;
}

struct Person {
    records::Patient patient;
    std::vector<records::Visit> visits;
};

size_t judged(const std::vector<Person>& people, const catalogue::Catalogue& catalogue)
{
    size_t changes = 0;
    for (const Person& person : people)
        changes += judging::latestChanges(person.visits, person.patient, catalogue).size();
    return changes;
}

/// Reads on this thread while the patients read before are judged on another.
std::optional<size_t> judgedAll(const session::Session& session, const catalogue::Catalogue& catalogue)
{
    size_t changes = 0;
    std::vector<Person> people;
    std::future<size_t> running;
    const auto handOver = [&] {
        if (running.valid())
            changes += running.get();
        running = std::async(std::launch::async,
                             [batch = std::move(people), &catalogue] { return judged(batch, catalogue); });
        people.clear();
    };
    const auto taken =
        session.eachPatient([&](const records::Patient& patient, const std::vector<records::Visit>& visits) {
            people.push_back({patient, visits});
            if (people.size() == atOnce)
                handOver();
        });
    handOver();
    changes += running.get();
    return taken ? std::optional(changes) : std::nullopt;
}

/// The rows read by the sqlite3 shell, seconds; nothing where it could not.
std::optional<double> shellReads(const QString& path)
{
    QString everyRow;
    for (const char* table : tables)
        everyRow += QStringLiteral("SELECT * FROM %1; ").arg(QLatin1String(table));
    QElapsedTimer clock;
    clock.start();
    QProcess shell;
    shell.setStandardOutputFile(QProcess::nullDevice());
    shell.start(QStringLiteral("sqlite3"), {QStringLiteral("-readonly"), path, everyRow});
    if (!shell.waitForFinished(-1) || shell.exitCode() != 0)
        return std::nullopt;
    return double(clock.elapsed()) / 1000;
}

bool judgeEveryone(const QString& folder, const catalogue::Catalogue& catalogue, int patients, bool areSealed,
                   Conditions kind)
{
    const bool areEqual = kind == Conditions::Equal;
    const QString path =
        folder + (areEqual ? QStringLiteral("/equal.aplomb") : QStringLiteral("/vary.aplomb"));
    const QString older = path + QStringLiteral(".older");
    if (!make(path, catalogue, patients, kind) || !makeOlder(older, path) ||
        (areSealed && !seal(path, catalogue)))
        return false;
    const auto session = openedClinic(path, catalogue);
    const auto bare = shellReads(older);
    if (session == nullptr || !bare)
        return false;

    QElapsedTimer clock;
    clock.start();
    size_t read = 0;
    const auto isRead = session->eachPatient(
        [&](const records::Patient&, const std::vector<records::Visit>& visits) { read += visits.size(); });
    const double reading = double(clock.restart()) / 1000;
    const auto changes = judgedAll(*session, catalogue);
    const double ours = double(clock.elapsed()) / 1000;

    rusage usage = {};
    getrusage(RUSAGE_SELF, &usage);
    const double findings = double(patients) * visitsEach * measuresEach;
    QTextStream(stdout) << QStringLiteral(
                               "%1 s   %2 s   ratio %3  judge %4 patients × %5 visits × %6 measures, "
                               "conditions %7 (bare: the sqlite3 shell reads the sixth schema); reading "
                               "alone %8; %9 bytes a finding, %10 before; peak memory %11 MB\n")
                               .arg(ours, 9, 'f', 2)
                               .arg(*bare, 9, 'f', 2)
                               .arg(ours / *bare, 7, 'f', 2)
                               .arg(patients)
                               .arg(visitsEach)
                               .arg(measuresEach)
                               .arg(areEqual ? QStringLiteral("equal") : QStringLiteral("that vary"))
                               .arg(reading / *bare, 0, 'f', 2)
                               .arg(double(QFileInfo(path).size()) / findings, 0, 'f', 0)
                               .arg(double(QFileInfo(older).size()) / findings, 0, 'f', 0)
                               .arg(usage.ru_maxrss / 1024);
    return isRead && read == size_t(patients) * visitsEach && changes == size_t(patients) * measuresEach;
}

} // namespace

bool judgeEveryone(const QString& folder, const catalogue::Catalogue& catalogue, int patients, bool areSealed)
{
    return judgeEveryone(folder, catalogue, patients, areSealed, Conditions::Equal) &&
           judgeEveryone(folder, catalogue, patients, areSealed, Conditions::Vary);
}

} // namespace bench
