#include "core/storage/unsaved_entries.h"

#include "core/storage/query.h"
#include "core/storage/transaction.h"

using namespace Qt::StringLiterals;

namespace storage
{

base::Result<void> UnsavedEntries::keep(const QString& form, const QString& typed)
{
    const QString sql = typed.isEmpty() ? u"DELETE FROM unsaved_entries WHERE form = :form"_s
                                        : u"INSERT INTO unsaved_entries (form, typed) VALUES (:form, :typed) "
                                          "ON CONFLICT (form) DO UPDATE SET typed = excluded.typed"_s;
    std::vector<Binding> bindings = {{":form", text(form)}};
    if (!typed.isEmpty())
        bindings.push_back({":typed", text(typed)});
    return together(m_store, [&]() -> base::Result<void> {
        const auto kept = write(m_store, sql, bindings);
        if (!kept)
            return kept.error();
        return {};
    });
}

base::Result<QString> UnsavedEntries::of(const QString& form) const
{
    QString typed;
    const auto found = read(m_store, u"SELECT typed FROM unsaved_entries WHERE form = :form"_s,
                            {{":form", text(form)}}, [&](Row& row) -> base::Result<void> {
                                typed = row.text();
                                return {};
                            });
    if (!found)
        return found.error();
    return typed;
}

} // namespace storage
