#include "core/storage/uses.h"

#include "core/storage/query.h"
#include "core/storage/transaction.h"
#include "core/storage/visit_reading.h"

#include <algorithm>
#include <iterator>

using namespace Qt::StringLiterals;

namespace storage
{

base::Result<std::vector<records::Use>> uses(const Store& store, const QString& measure)
{
    const QString sql = uR"(
        SELECT patients.id, family, given, record_number, visits.id, visits.day
        FROM visits JOIN patients ON patients.id = visits.patient
        WHERE EXISTS (SELECT 1 FROM findings WHERE findings.visit = visits.key AND measure = :measure
                      AND findings.state <> 'not-asked')
          AND %1
        ORDER BY visits.day DESC, family, given, visits.id)"_s.arg(thatCounts(Drafts::Too));
    std::vector<records::Use> all;
    auto found = read(store, sql, {{":measure", text(measure)}}, [&](Row& row) -> base::Result<void> {
        all.push_back({row.key<records::Patient>(), row.text(), row.text(), row.text(),
                       row.key<records::Visit>(), row.dayIfAny().value_or(QDate())});
        return {};
    });
    if (!found)
        return found.error();
    return all;
}

base::Result<std::vector<records::Finding>> findingsOf(Store& store, const QString& measure)
{
    const Transaction transaction(store, Transaction::Kind::Reads);
    if (!transaction.begun())
        return transaction.begun().error();
    const auto visits = VisitReader(store).where(
        u"visits.key IN (SELECT visit FROM findings WHERE measure = :key)"_s, measure);
    if (!visits)
        return visits.error();
    std::vector<records::Finding> findings;
    for (const records::Visit& visit : *visits)
        std::ranges::copy_if(visit.findings, std::back_inserter(findings),
                             [&](const records::Finding& finding) { return finding.measure == measure; });
    return findings;
}

} // namespace storage
