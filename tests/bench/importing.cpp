#include "tests/bench/importing.h"

#include "app/session/importing.h"

#include <QDate>

#include <sqlite3.h>

using namespace Qt::StringLiterals;

namespace bench
{

QByteArray findingsRows(int rows)
{
    QByteArray file =
        "patient,family,given,born,sex,population,date,measure,side,trial,value,unit,state,reason,aid,"
        "orthosis,footwear,assistance,start,distance_m,medication\n";
    const char* const sided[] = {"finger-tapping", "toe-tapping", "heel-tapping"};
    constexpr int visits = 10;
    int written = 0;
    const auto add = [&](int visit, const QString& what) {
        const int patient = visit / visits;
        const QDate day = QDate(2020, 1, 6).addDays(90 * (visit % visits));
        file +=
            u"B-%1,Bench%1,Test,1950-02-03,female,stroke-chronic,%2,%3,done,,stick,none,shoes,none,static,10,on\n"_s
                .arg(QString::number(patient), day.toString(Qt::ISODate), what)
                .toUtf8();
        ++written;
    };
    int visit = 0;
    while (written < rows) {
        for (const char* measure : sided) {
            for (const char* side : {"right", "left"})
                add(visit, u"%1,%2,1,%3,"_s.arg(QLatin1String(measure), QLatin1String(side)).arg(visit % 4));
        }
        for (const int trial : {1, 2, 3})
            add(visit, u"ten-metre-walk-time-comfortable,,%1,%2,s"_s.arg(trial).arg(8 + (visit + trial) % 50 /
                                                                                            10.0));
        add(visit, u"timed-up-and-go,,1,%1,s"_s.arg(9 + visit % 70 / 10.0));
        ++visit;
    }
    return file;
}

bool importRows(const QString& path, const QByteArray& file, const catalogue::Catalogue& catalogue)
{
    const auto now = [] { return QDateTime(QDate(2026, 3, 1), QTime(8, 0), Qt::UTC); };
    const auto session =
        session::Session::open(path, catalogue, {u"bench"_s, now}, records::Opening::MayCreate);
    const auto read = session ? session::findingsFile(**session, file) : session.error();
    return read && session::importFile(**session, *read, session::importingAuthor(u"bench"_s));
}

bool insertRows(const QString& path, const QByteArray& file)
{
    sqlite3* database = nullptr;
    sqlite3_stmt* statement = nullptr;
    const QList<QByteArray> lines = file.split('\n');
    const qsizetype columns = lines.first().count(',') + 1;
    bool isDone = sqlite3_open(path.toUtf8().constData(), &database) == SQLITE_OK;
    const auto run = [&](const QByteArray& sql) {
        isDone = isDone && sqlite3_exec(database, sql.constData(), nullptr, nullptr, nullptr) == SQLITE_OK;
    };
    run("PRAGMA journal_mode = WAL");
    run("PRAGMA synchronous = FULL");
    run("CREATE TABLE rows (" + lines.first() + ")");
    run("BEGIN IMMEDIATE");
    const QByteArray insert = "INSERT INTO rows VALUES (?" + QByteArray(",?").repeated(columns - 1) + ")";
    isDone = isDone && sqlite3_prepare_v2(database, insert.constData(), -1, &statement, nullptr) == SQLITE_OK;
    for (qsizetype row = 1; isDone && row + 1 < lines.size(); ++row) {
        const QList<QByteArray> cells = lines.at(row).split(',');
        for (qsizetype cell = 0; cell < columns; ++cell)
            sqlite3_bind_text(statement, int(cell) + 1, cells.at(cell).constData(),
                              int(cells.at(cell).size()), SQLITE_STATIC);
        isDone = sqlite3_step(statement) == SQLITE_DONE && sqlite3_reset(statement) == SQLITE_OK;
    }
    sqlite3_finalize(statement);
    run("COMMIT");
    sqlite3_close(database);
    return isDone;
}

} // namespace bench
