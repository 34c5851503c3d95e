#include "core/storage/imports.h"

#include "core/storage/query.h"
#include "core/storage/transaction.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using Kind = ImportWrite::Kind;

constexpr std::pair<Kind, const char*> kinds[] = {{Kind::NewPatient, "new-patient"},
                                                  {Kind::Patient, "patient"},
                                                  {Kind::Visit, "visit"},
                                                  {Kind::Amendment, "amendment"},
                                                  {Kind::Draft, "draft"}};

QString code(Kind kind)
{
    return QString::fromLatin1(std::ranges::find(kinds, kind, &std::pair<Kind, const char*>::first)->second);
}

Kind kindFrom(const QString& code)
{
    const auto found =
        std::ranges::find_if(kinds, [&](const auto& kind) { return code == QLatin1StringView(kind.second); });
    return found == std::end(kinds) ? Kind::Visit : found->first;
}

base::Result<void> addBefore(const Store& store, int number, const ImportWrite& draft)
{
    const QString sql = uR"(
        INSERT INTO import_findings (import, visit, measure, side, trials, cap_reached)
        VALUES (:import, :visit, :measure, :side, :trials, :cap_reached))"_s;
    for (const FindingBefore& before : draft.before) {
        auto added = write(store, sql,
                           {{":import", number},
                            {":visit", text(draft.record)},
                            {":measure", text(before.measure)},
                            {":side", records::code(before.side)},
                            {":trials", before.trials ? QVariant(*before.trials) : QVariant()},
                            {":cap_reached", flag(before.capReached)}});
        if (!added)
            return added.error();
    }
    return {};
}

base::Result<void> readBefore(const Store& store, int number, ImportWrite& draft)
{
    const QString sql = uR"(
        SELECT measure, side, trials, cap_reached FROM import_findings
        WHERE import = :import AND visit = :visit ORDER BY measure, side)"_s;
    return read(store, sql, {{":import", number}, {":visit", text(draft.record)}},
                [&](Row& row) -> base::Result<void> {
                    FindingBefore before;
                    before.measure = row.text();
                    before.side = records::sideFromCode(row.text()).value_or(records::Side::None);
                    if (const auto trials = row.wholeIfAny())
                        before.trials = int(*trials);
                    before.capReached = row.flag();
                    draft.before.push_back(before);
                    return {};
                });
}

} // namespace

base::Result<void> Imports::add(const QString& file, const std::vector<ImportWrite>& writes)
{
    return together(m_store, [&]() -> base::Result<void> {
        const auto last = readWhole(m_store, u"SELECT MAX(number) FROM imports"_s, {});
        if (!last)
            return last.error();
        const int number = int(last->value_or(0)) + 1;
        auto added =
            write(m_store, u"INSERT INTO imports (number, file, made_at) VALUES (:number, :file, :at)"_s,
                  {{":number", number}, {":file", text(file)}, {":at", instant(m_store.access().now())}});
        if (!added)
            return added.error();
        const QString sql = uR"(
            INSERT INTO import_writes (import, position, kind, record, revision, filled)
            VALUES (:import, :position, :kind, :record, :revision, :filled))"_s;
        int position = 0;
        for (const ImportWrite& one : writes) {
            added = write(m_store, sql,
                          {{":import", number},
                           {":position", ++position},
                           {":kind", code(one.kind)},
                           {":record", text(one.record)},
                           {":revision", one.revision},
                           {":filled", lines(one.filled)}});
            if (!added)
                return added.error();
            if (auto before = addBefore(m_store, number, one); !before)
                return before;
        }
        return {};
    });
}

base::Result<std::optional<Import>> Imports::last() const
{
    const Transaction transaction(m_store, Transaction::Kind::Reads);
    if (!transaction.begun())
        return transaction.begun().error();
    std::optional<Import> last;
    auto found = read(
        m_store,
        u"SELECT number, file, made_at FROM imports WHERE taken_back_at IS NULL ORDER BY number DESC LIMIT 1"_s,
        {}, [&](Row& row) -> base::Result<void> {
            last = Import{row.whole(), row.text(), row.instant(), {}};
            return {};
        });
    if (!found)
        return found.error();
    if (!last)
        return last;
    found = read(m_store,
                 u"SELECT kind, record, revision, filled FROM import_writes WHERE import = :import "
                 "ORDER BY position"_s,
                 {{":import", last->number}}, [&](Row& row) -> base::Result<void> {
                     last->writes.push_back({kindFrom(row.text()), row.text(), row.whole(), row.lines()});
                     return {};
                 });
    if (!found)
        return found.error();
    for (ImportWrite& one : last->writes) {
        if (one.kind == Kind::Draft) {
            if (auto before = readBefore(m_store, last->number, one); !before)
                return before.error();
        }
    }
    return last;
}

base::Result<void> Imports::markTakenBack(int number)
{
    return together(m_store, [&]() -> base::Result<void> {
        const auto marked = write(
            m_store,
            u"UPDATE imports SET taken_back_at = :at WHERE number = :number AND taken_back_at IS NULL"_s,
            {{":at", instant(m_store.access().now())}, {":number", number}});
        if (!marked)
            return marked.error();
        if (*marked == 0)
            return base::Error{
                base::ErrorKind::NotFound, base::said("There is no import that could be taken back."), {}};
        return {};
    });
}

base::Result<QSet<QString>> Imports::takenBackVisits(const records::PatientId& patient) const
{
    QSet<QString> visits;
    const QString sql = uR"(
        SELECT record FROM import_writes
        JOIN imports ON imports.number = import_writes.import
        JOIN visits ON visits.id = import_writes.record
        WHERE visits.patient = :patient AND kind = 'visit' AND taken_back_at IS NOT NULL)"_s;
    auto found = read(m_store, sql, {{":patient", key(patient)}}, [&](Row& row) -> base::Result<void> {
        visits += row.text();
        return {};
    });
    if (!found)
        return found.error();
    return visits;
}

} // namespace storage
