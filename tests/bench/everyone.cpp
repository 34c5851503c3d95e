#include "tests/bench/everyone.h"

#include "core/records/visit.h"
#include "tests/bench/clinic.h"

#include "core/storage/store.h"

#include <QElapsedTimer>
#include <QProcess>
#include <QSqlDatabase>
#include <QSqlQuery>
#include <QSqlRecord>
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

constexpr int measuresEach = 40;
constexpr int atOnce = 64; ///< patients handed to a thread together

const char* const visitsOfEveryone = R"(
    CREATE TEMP TABLE made AS
    WITH RECURSIVE n (k) AS (SELECT 0 UNION ALL SELECT k + 1 FROM n WHERE k < 19)
    SELECT lower(hex(randomblob(16))) AS id, patients.id AS patient, k FROM patients, n;
    INSERT INTO visits
        (id, revision, series, version, patient, day, state, form, form_made, conditions_confirmed, author_name,
         author_role, author_registration, signed_at, amendment_reason)
    SELECT id, 1, id, 1, patient, date('2020-01-06', (k * 30) || ' days'), 'draft', 'neurological', '', 1, '', '',
           '', NULL, '' FROM made ORDER BY patient, k;
    INSERT INTO visit_conditions (visit, name, value)
    SELECT made.id, name, value FROM made, recorded ORDER BY patient, k;
    INSERT INTO findings
        (id, revision, visit, position, measure, side, state, number, unit, grade, choice, reason, cap_reached,
         signs, note)
    SELECT lower(hex(randomblob(16))), 1, made.id, place, measure, side, 'done',
           CASE WHEN unit IS NULL THEN NULL ELSE middle + abs(random() % 9) * step END, unit,
           CASE WHEN unit IS NULL THEN abs(random() % 3) END, NULL, '', 0, '', ''
    FROM made, wanted ORDER BY patient, k, place;
    INSERT INTO trials (finding, number, value)
    SELECT findings.id, trial, findings.number FROM findings JOIN wanted ON wanted.measure = findings.measure,
           (SELECT 1 AS trial UNION ALL SELECT 2 UNION ALL SELECT 3) WHERE trial <= trials AND trials > 1
           AND findings.number IS NOT NULL;
)";

/// Every table the judgement needs.
const char* const tables[] = {"patients",           "visits",          "findings", "trials",
                              "finding_conditions", "visit_conditions"};

bool run(sqlite3* database, const QString& sql)
{
    return sqlite3_exec(database, sql.toUtf8().constData(), nullptr, nullptr, nullptr) == SQLITE_OK;
}

/// The measures everyone is examined with and the conditions of every visit, as tables the statements above
/// can join.
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
    sql += QStringLiteral("CREATE TEMP TABLE recorded (name, value);");
    const records::Conditions conditions = everyCondition(catalogue);
    for (const auto& [name, value] : conditions.asKeyValueRange())
        sql += QStringLiteral("INSERT INTO recorded VALUES ('%1', '%2');").arg(name, value);
    return sql;
}

bool make(const QString& path, const catalogue::Catalogue& catalogue, int patients)
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
                        run(database, QString::fromLatin1(visitsOfEveryone)) &&
                        run(database, QStringLiteral("COMMIT"));
    if (!isMade)
        QTextStream(stderr) << sqlite3_errmsg(database) << '\n';
    sqlite3_close(database);
    return isMade;
}

/// The same rows through Qt Sql, every column looked at and nothing kept.
void readThroughQt(const QString& path)
{
    QSqlDatabase database =
        QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), QStringLiteral("through-qt"));
    database.setDatabaseName(path);
    if (!database.open())
        return;
    for (const char* table : tables) {
        QSqlQuery query(database);
        query.setForwardOnly(true);
        query.exec(QStringLiteral("SELECT * FROM %1").arg(QLatin1String(table)));
        const int columns = query.record().count();
        while (query.next()) {
            for (int column = 0; column < columns; ++column)
                benchmark::DoNotOptimize(query.value(column));
        }
    }
    database.close();
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

} // namespace

bool judgeEveryone(const QString& folder, const catalogue::Catalogue& catalogue, int patients)
{
    const QString path = folder + QStringLiteral("/everyone.aplomb");
    if (!make(path, catalogue, patients))
        return false;
    const auto session = openedClinic(path, catalogue);
    if (session == nullptr)
        return false;

    QElapsedTimer clock;
    clock.start();
    QProcess shell;
    shell.setStandardOutputFile(QProcess::nullDevice());
    QString everyRow;
    for (const char* table : tables)
        everyRow += QStringLiteral("SELECT * FROM %1; ").arg(QLatin1String(table));
    shell.start(QStringLiteral("sqlite3"), {QStringLiteral("-readonly"), path, everyRow});
    if (!shell.waitForFinished(-1) || shell.exitCode() != 0)
        return false;
    const double bare = double(clock.restart());
    readThroughQt(path);
    const double throughQt = double(clock.restart());
    const auto changes = judgedAll(*session, catalogue);
    const double ours = double(clock.elapsed());

    rusage usage = {};
    getrusage(RUSAGE_SELF, &usage);
    QTextStream(stdout) << QStringLiteral(
                               "%1 ms  %2 ms  ratio %3  judge %4 patients × 20 visits × %5 measures "
                               "(bare: the sqlite3 shell reads the rows; at most 2; reading them through "
                               "Qt Sql alone %6); peak memory %7 MB\n")
                               .arg(ours, 10, 'f', 0)
                               .arg(bare, 10, 'f', 0)
                               .arg(ours / bare, 7, 'f', 2)
                               .arg(patients)
                               .arg(measuresEach)
                               .arg(throughQt / bare, 0, 'f', 2)
                               .arg(usage.ru_maxrss / 1024);
    return changes == size_t(patients) * measuresEach;
}

} // namespace bench
