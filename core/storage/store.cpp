#include "core/storage/store.h"

#include "core/base/text.h"
#include "core/storage/audit_trail.h"
#include "core/storage/query.h"
#include "core/storage/sealing.h"
#include "core/storage/statements.h"
#include "core/storage/transaction.h"
#include "core/storage/watch.h"
#include "core/storage/writer_lock.h"

#include <QFileInfo>
#include <QSqlDriver>
#include <QSqlError>
#include <QUuid>

#include <sqlite3.h>
#include <sys/stat.h>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;

constexpr int applicationId = 0x41706C6D; // "Aplm" in the file's header

/// What stands behind a connection of Qt Sql.
sqlite3* handleOf(const QSqlDatabase& database)
{
    const QVariant handle = database.driver()->handle();
    return handle.isValid() ? *static_cast<sqlite3* const*>(handle.constData()) : nullptr;
}

} // namespace

Store::Store(QString path, Access access)
    : m_path(std::move(path)),
      m_access(std::move(access)),
      m_connection(QUuid::createUuid().toString()),
      m_statements(std::make_unique<Statements>(nullptr))
{
}

Store::~Store()
{
    // At rest the one file is the whole clinic and needs nothing beside it to be read.
    if (m_isWriting) {
        (void)ask(u"PRAGMA busy_timeout = 0"_s); // somebody may be reading
        settle();
        if (refuseMoved())
            (void)ask(u"PRAGMA journal_mode = DELETE"_s);
    }
    disconnect();
    if (m_lock && m_file != m_home)
        removeUnfinished();
    if (m_lock && !QFileInfo::exists(m_home))
        m_lock->withdraw();
}

void Store::disconnect()
{
    m_statements = std::make_unique<Statements>(nullptr); // SQLite closes no connection that still has some
    database().close();
    QSqlDatabase::removeDatabase(m_connection);
}

QSqlDatabase Store::database() const
{
    return QSqlDatabase::database(m_connection, false);
}

base::Result<void> Store::connect(Opening opening)
{
    makeLocksLast();
    auto database = QSqlDatabase::addDatabase(u"QSQLITE"_s, m_connection);
    database.setDatabaseName(opening == Opening::AsCopy ? u":memory:"_s : m_file);
    database.setConnectOptions(opening == Opening::ToRead
                                   ? u"QSQLITE_BUSY_TIMEOUT=5000;QSQLITE_OPEN_READONLY"_s
                                   : u"QSQLITE_BUSY_TIMEOUT=5000"_s);
    if (!database.open())
        return errorOf(database.lastError().nativeErrorCode().toInt(), database.lastError().text());
    m_statements = std::make_unique<Statements>(handleOf(database));
    m_place = placeOf(m_file);
    if (isSealed() && opening != Opening::AsCopy)
        return applyKey(handleOf(database), m_access.seal->key);
    return {};
}

std::optional<Store::Place> Store::placeOf(const QString& file)
{
    struct stat found = {};
    if (file.isEmpty() || stat(file.toLocal8Bit().constData(), &found) != 0)
        return std::nullopt;
    return Place{found.st_dev, found.st_ino};
}

/// What is written to a file that lost its name is found by nobody again.
base::Result<void> Store::refuseMoved() const
{
    if (!m_place || placeOf(m_file) == m_place)
        return {};
    settle(); // so that what was saved before goes with the file
    return Error{ErrorKind::NotFound,
                 base::said("The records file was renamed, moved or deleted while it was open, so nothing "
                            "was saved; bring it "
                            "back to its place and save again."),
                 {}};
}

void Store::settle() const
{
    if (m_isWriting)
        (void)ask(u"PRAGMA wal_checkpoint(PASSIVE)"_s); // what a reader still holds back is brought in later
}

/// All of the other's records, as they are at this moment, in clear.
base::Result<void> Store::takeCopyOf(const Store& other) const
{
    const Error failed{ErrorKind::Unreadable, base::said("The records could not be copied into memory."), {}};
    sqlite3_int64 size = 0;
    unsigned char* copy = sqlite3_serialize(other.m_statements->database(), "main", &size, 0);
    if (copy == nullptr)
        return failed;
    // Which kind of journal the file has; memory has none.
    constexpr int readVersion = 18;
    constexpr int writeVersion = 19;
    copy[readVersion] = copy[writeVersion] = 1;
    if (sqlite3_deserialize(m_statements->database(), "main", copy, size, size,
                            SQLITE_DESERIALIZE_FREEONCLOSE | SQLITE_DESERIALIZE_RESIZEABLE) != SQLITE_OK)
        return failed;
    return refuseFaults(); // a page that could not be read is an empty one here
}

base::Result<void> Store::markAsOurs() const
{
    if (auto marked = ask(u"PRAGMA application_id = %1"_s.arg(applicationId)); !marked)
        return marked.error();
    return {};
}

base::Result<void> Store::refuseForeign() const
{
    const auto id = ask(u"PRAGMA application_id"_s);
    if (!id && id.error().kind == ErrorKind::Foreign && isSealed())
        return Error{ErrorKind::Refused,
                     base::said("These records do not open with this key: it is that of others, or their "
                                "first page is damaged."),
                     id.error().detail};
    if (!id)
        return id.error();
    if (id->toInt() != applicationId)
        return Error{ErrorKind::Foreign,
                     base::said("This is the database of another program, not a records file."),
                     {}};
    return {};
}

base::Result<void> Store::makeDurable() const
{
    for (const QString& setting :
         {u"PRAGMA foreign_keys = ON"_s, u"PRAGMA synchronous = FULL"_s, u"PRAGMA temp_store = MEMORY"_s}) {
        if (auto set = ask(setting); !set)
            return set.error();
    }
    const auto mode = ask(u"PRAGMA journal_mode = WAL"_s);
    if (!mode)
        return mode.error();
    if (*mode != u"wal"_s) {
        return Error{
            ErrorKind::Unwritable,
            base::said("This place cannot keep a records file safely; choose a folder on a local disk."),
            {}};
    }
    // Of a program that was ended before its first write; with the log nobody reads it.
    QFile::remove(m_file + u"-journal"_s);
    return {};
}

base::Result<void> Store::copyInto(const QString& path, const records::Progress& progress) const
{
    if (progress && refuseMoved()) { // who is told meanwhile may use this connection
        const auto apart = open(m_path, m_access, Opening::ToRead);
        return apart ? (*apart)->writeCopy(path, progress) : apart.error();
    }
    return writeCopy(path, {});
}

base::Result<void> Store::writeCopy(const QString& path, const records::Progress& progress) const
{
    if (auto made = makePrivate(path); !made)
        return made;
    const Watch watch(m_statements->database(), asItGrows(path, QFileInfo(m_file).size(), progress));
    if (auto copied = write(*this, u"VACUUM INTO :path"_s, {{":path", path}}); !copied)
        return copied.error();
    return {};
}

/// Runs one statement; the first column of its first row, if it has any.
base::Result<QString> Store::ask(const QString& statement) const
{
    Statements::Run run(statements(), statement, {});
    const auto isAnswered = run.step();
    if (!isAnswered)
        return isAnswered.error();
    return *isAnswered ? Row(run.row()).text() : QString();
}

base::Result<void> Store::begin(bool writes)
{
    if (writes && m_depth == 0) {
        if (auto inPlace = refuseMoved(); !inPlace)
            return inPlace;
    }
    // A deferred BEGIN that reads first and then writes fails at once when another program has written in
    // between.
    const QString outermost = writes ? u"BEGIN IMMEDIATE"_s : u"BEGIN"_s;
    auto begun = ask(m_depth == 0 ? outermost : u"SAVEPOINT part_%1"_s.arg(m_depth));
    if (!begun)
        return begun.error();
    ++m_depth;
    return {};
}

base::Result<void> Store::commit()
{
    auto committed = ask(m_depth == 1 ? u"COMMIT"_s : u"RELEASE part_%1"_s.arg(m_depth - 1));
    if (!committed)
        return committed.error();
    --m_depth;
    return {};
}

void Store::rollBack()
{
    // After a full disk SQLite has rolled back itself and says so; there is nothing left to do then.
    --m_depth;
    if (m_depth == 0) {
        (void)ask(u"ROLLBACK"_s);
        return;
    }
    (void)ask(u"ROLLBACK TO part_%1"_s.arg(m_depth));
    (void)ask(u"RELEASE part_%1"_s.arg(m_depth));
}

base::Result<void> Store::refuseFaults() const
{
    const auto faults = fileFaults();
    if (!faults)
        return faults.error();
    if (!faults->isEmpty())
        return Error{ErrorKind::Unreadable,
                     base::said("The records file is damaged; restore it from a copy."), faults->first()};
    return {};
}

base::Result<QStringList> Store::fileFaults(const records::Progress& progress) const
{
    QStringList faults;
    constexpr int afterPages = 40, afterChecks = 80;
    int percent = 0;
    const Watch watch(m_statements->database(),
                      progress ? [&] { return progress(percent); } : Watch::GoesOn());
    if (isSealed()) { // every page has a mark that only the key can make, also one that holds nothing now
        if (auto read = ask(u"SELECT SUM(LENGTH(data)) FROM sqlite_dbpage"_s); !read)
            return read.error();
    }
    percent = afterPages;
    auto checked = read(*this, u"PRAGMA integrity_check"_s, {}, [&](Row& row) -> base::Result<void> {
        if (const QString said = row.text(); said != u"ok"_s)
            faults += u"The file is damaged: %1."_s.arg(said);
        return {};
    });
    if (!checked)
        return checked.error();
    percent = afterChecks;
    auto linked = read(*this, u"PRAGMA foreign_key_check"_s, {}, [&](Row& row) -> base::Result<void> {
        const QString table = row.text();
        const auto number = row.wholeIfAny(); // a clustered table has none
        const QString one = number ? u"Row %1"_s.arg(*number) : u"A row"_s;
        faults +=
            u"%1 of the table %2 belongs to a record in %3 that is not there."_s.arg(one, table, row.text());
        return {};
    });
    if (!linked)
        return linked.error();
    const auto pages = ask(u"PRAGMA page_count"_s);
    const auto pageSize = ask(u"PRAGMA page_size"_s);
    if (!pages || !pageSize)
        return (pages ? pageSize : pages).error();
    if (const qint64 behind = QFileInfo(m_file).size() - pages->toLongLong() * pageSize->toLongLong();
        behind > 0)
        faults +=
            u"Behind the end of the records the file holds %1 bytes that are none of theirs."_s.arg(behind);
    return faults;
}

base::Result<records::Clinic> Store::clinic() const
{
    records::Clinic clinic;
    const QString sql =
        uR"(SELECT name, address, telephone, is_demo, planned_visits, composite_weeks, strictness, urgency_levels,
                   paper, copies_always, logo
            FROM clinic)"_s;
    auto found = read(*this, sql, {}, [&](Row& row) -> base::Result<void> {
        clinic = {row.text(), row.text(), row.text(), row.flag(), {row.whole(), row.wholeIfAny()}, {}};
        clinic.judging.strictness =
            records::strictnessFromCode(row.text()).value_or(records::Strictness::Balanced);
        clinic.urgencyLevels = row.lines();
        clinic.paper = records::paperSizeFromCode(row.text()).value_or(records::PaperSize::A4);
        clinic.copiesAlways = row.text();
        clinic.logo = row.bytes();
        return {};
    });
    if (!found)
        return found.error();
    found = read(
        *this,
        u"SELECT population, measure, threshold, reason, who, chosen_at FROM clinic_choices ORDER BY number"_s,
        {}, [&](Row& row) -> base::Result<void> {
            const QString population = row.text();
            clinic.judging.choices.push_back(
                {population, {row.text(), row.text(), row.text(), row.text(), row.instant()}});
            return {};
        });
    if (!found)
        return found.error();
    found = read(
        *this, u"SELECT of, id, weeks FROM review_intervals ORDER BY of, id"_s, {},
        [&](Row& row) -> base::Result<void> {
            const auto of = records::reviewOfFromCode(row.text());
            const QString id = row.text();
            clinic.reviews.push_back({of.value_or(records::ReviewInterval::Of::Population), id, row.whole()});
            return {};
        });
    if (!found)
        return found.error();
    return clinic;
}

base::Result<void> Store::save(const records::Clinic& clinic)
{
    const std::optional<int>& weeks = clinic.judging.compositeWeeks;
    return together(*this, [&]() -> base::Result<void> {
        const QString sql = uR"(
            UPDATE clinic
            SET revision = revision + 1, name = :name, address = :address, telephone = :telephone,
                is_demo = :is_demo, planned_visits = :planned_visits, composite_weeks = :composite_weeks,
                strictness = :strictness,
                urgency_levels = :urgency_levels, paper = :paper, copies_always = :copies_always, logo = :logo
            WHERE id = 1)"_s;
        auto saved = write(*this, sql,
                           {{":name", text(clinic.name)},
                            {":address", text(clinic.address)},
                            {":telephone", text(clinic.telephone)},
                            {":is_demo", flag(clinic.isDemo)},
                            {":planned_visits", clinic.judging.plannedVisits},
                            {":composite_weeks", weeks ? QVariant(*weeks) : QVariant()},
                            {":strictness", records::code(clinic.judging.strictness)},
                            {":urgency_levels", lines(clinic.urgencyLevels)},
                            {":paper", records::code(clinic.paper)},
                            {":copies_always", text(clinic.copiesAlways)},
                            {":logo", clinic.logo}});
        if (!saved)
            return saved.error();
        if (auto cleared = write(*this, u"DELETE FROM review_intervals"_s, {}); !cleared)
            return cleared.error();
        for (const records::ReviewInterval& each : clinic.reviews) {
            auto added =
                write(*this, u"INSERT INTO review_intervals (of, id, weeks) VALUES (:of, :id, :weeks)"_s,
                      {{":of", records::code(each.of)}, {":id", text(each.id)}, {":weeks", each.weeks}});
            if (!added)
                return added.error();
        }
        return note(*this, u"changed"_s, u"clinic"_s, u"clinic"_s);
    });
}

base::Result<void> Store::chooseEvidence(const records::PopulationChoice& chosen)
{
    if (base::tidied(chosen.choice.reason).isEmpty())
        return base::Error{base::ErrorKind::Refused, base::said("A choice of evidence needs a reason."), {}};
    return together(*this, [&]() -> base::Result<void> {
        const QString sql = uR"(
            INSERT INTO clinic_choices (number, population, measure, threshold, reason, who, chosen_at)
            SELECT COALESCE(MAX(number), 0) + 1, :population, :measure, :threshold, :reason, :who, :at
            FROM clinic_choices)"_s;
        auto written = write(*this, sql,
                             {{":population", text(chosen.population)},
                              {":measure", text(chosen.choice.measure)},
                              {":threshold", text(chosen.choice.threshold)},
                              {":reason", text(chosen.choice.reason)},
                              {":who", text(m_access.who)},
                              {":at", instant(m_access.now())}});
        if (!written)
            return written.error();
        return note(*this, u"changed"_s, u"clinic"_s, u"clinic"_s);
    });
}

} // namespace storage
