#pragma once

#include "core/records/visit.h"
#include "core/storage/query.h"

#include <QHash>

namespace storage
{

/// Reads visits with everything in them. What many of them share (sets of conditions, forms as made, the
/// names of measures) is read once and shared, so one reader serves for a whole pass; it lives within one
/// transaction of the caller, since it does not see later changes.
class VisitReader
{
public:
    explicit VisitReader(const Store& store) : m_store(store) {}

    /// The visits of which a condition on `visits` holds, with `:key` in it; oldest day and version first.
    base::Result<std::vector<records::Visit>> where(const QString& condition, const QString& key);

    /// One finding of a visit. NotFound where the visit is gone.
    base::Result<records::FindingRead> finding(const records::VisitId& visit, const QString& measure,
                                               records::Side side);

private:
    /// What a code means, looked up once.
    template <class Meaning>
    using Known = QHash<QByteArray, std::optional<Meaning>>;

    base::Result<records::Visit> visitFrom(Row& row);
    base::Result<void> addFindings(records::Visit& visit, qint64 key);
    base::Result<void> take(Row& row, records::Finding& finding);
    std::optional<values::Value> valueFrom(Row& row);
    base::Result<records::Conditions> conditions(std::optional<qint64> set);
    base::Result<std::optional<catalogue::Form>> formMade(std::optional<qint64> key);

    const Store& m_store;
    size_t m_findings = 0; ///< of the visit read last; the next has about as many
    QHash<qint64, records::Conditions> m_sets;
    QHash<qint64, catalogue::Form> m_forms;
    Known<QString> m_measures;
    Known<records::Side> m_sides;
    Known<values::Unit> m_units;
};

/// Which drafts may be the version that counts: any, or that of a visit that was never signed.
enum class Drafts { Too, OnlyFirst };

/// SQL that holds for a row of `visits` that is the version that counts of its visit, as records::current
/// chooses it: the newest of those that may, unless the visit was entered in error.
QString thatCounts(Drafts drafts);

} // namespace storage
