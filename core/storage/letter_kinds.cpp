#include "core/storage/letter_kinds.h"

#include "core/base/text.h"
#include "core/records/ids.h"
#include "core/storage/audit_trail.h"
#include "core/storage/query.h"
#include "core/storage/transaction.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace storage
{

base::Result<std::vector<records::LetterKind>> LetterKinds::all() const
{
    std::vector<records::LetterKind> kinds;
    const QString sql =
        u"SELECT id, version, title, page, is_retired, who, saved_at FROM letter_kinds ORDER BY id, version"_s;
    auto found = read(m_store, sql, {}, [&](Row& row) -> base::Result<void> {
        records::LetterKind kind;
        kind.id = row.text();
        kind.version = row.whole();
        kind.title = row.text();
        kind.page = row.text();
        kind.isRetired = row.flag();
        kind.who = row.text();
        kind.savedAt = row.instant();
        kinds.push_back(kind);
        return {};
    });
    if (!found)
        return found.error();
    return kinds;
}

base::Result<records::LetterKind> LetterKinds::save(const records::LetterKind& given)
{
    if (base::tidied(given.title).isEmpty())
        return base::Error{base::ErrorKind::Invalid, base::said("A kind of letter has a title."), {}};
    records::LetterKind kind = given;
    if (kind.version == 0)
        kind.id = records::LetterId::make().text;
    return together(m_store, [&]() -> base::Result<records::LetterKind> {
        const auto versions = all();
        if (!versions)
            return versions.error();
        int newest = 0;
        for (const records::LetterKind& each : *versions) {
            if (each.id == kind.id)
                newest = each.version;
        }
        if (newest != kind.version)
            return base::Error{
                base::ErrorKind::Conflict,
                base::said("Someone else has changed this kind of letter since; nothing was saved."),
                {}};
        ++kind.version;
        kind.who = m_store.access().who;
        kind.savedAt = m_store.access().now();
        const QString sql = uR"(
            INSERT INTO letter_kinds (id, version, title, page, is_retired, who, saved_at)
            VALUES (:id, :version, :title, :page, :is_retired, :who, :at))"_s;
        auto added = write(m_store, sql,
                           {{":id", text(kind.id)},
                            {":version", kind.version},
                            {":title", text(kind.title)},
                            {":page", text(kind.page)},
                            {":is_retired", flag(kind.isRetired)},
                            {":who", text(kind.who)},
                            {":at", instant(kind.savedAt)}});
        if (!added)
            return added.error();
        if (auto noted = note(m_store, u"changed"_s, u"clinic"_s, u"clinic"_s); !noted)
            return noted.error();
        return kind;
    });
}

} // namespace storage
