#include "core/storage/soundness.h"

#include "core/records/check.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/transaction.h"
#include "core/storage/visits.h"

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

void addWrong(QStringList& faults, const QString& record, const std::optional<base::Error>& wrong)
{
    if (wrong)
        faults += u"%1: %2"_s.arg(record, wrong->what);
}

void addVisitFaults(QStringList& faults, const records::Visit& visit, const records::Patient& patient,
                    const catalogue::Catalogue& catalogue, QDate today)
{
    const QString record = u"Visit %1"_s.arg(visit.id.text);
    for (const records::Finding& finding : visit.findings)
        addWrong(faults, record, records::wrongWith(finding, catalogue));
    records::Visit withoutFindings = visit;
    withoutFindings.findings.clear();
    addWrong(faults, record, records::wrongWith(withoutFindings, patient, catalogue, today));
    if (visit.state != records::VisitState::Draft &&
        (visit.author.name.isEmpty() || !visit.signedAt.isValid()))
        faults += u"%1: It is signed without an author or an instant."_s.arg(record);
}

/// Rules that hold between rows; each query answers with the ids of the records that break one.
base::Result<void> addBrokenRules(QStringList& faults, const Store& store)
{
    struct Rule {
        QString broken;
        QString sentence;
    };
    const std::vector<Rule> rules = {
        {uR"(SELECT later.id FROM visits later
             JOIN visits earlier ON earlier.series = later.series AND earlier.version < later.version
             WHERE earlier.state = 'draft' OR earlier.patient <> later.patient)"_s,
         u"Visit %1: It amends a visit that is a draft or another patient's."_s},
        {uR"(SELECT letters.id FROM letters JOIN visits ON visits.id = letters.visit
             WHERE visits.patient <> letters.patient)"_s,
         u"Letter %1: Its visit is another patient's."_s},
        {uR"(SELECT letters.id FROM letters JOIN visits ON visits.id = letters.visit
             WHERE letters.state = 'signed' AND visits.state = 'draft')"_s,
         u"Letter %1: It is signed, and its visit is not."_s},
        {uR"(SELECT visit_withdrawals.series FROM visit_withdrawals
             WHERE reason = '' OR author_name = '' OR withdrawn_at = ''
                OR EXISTS (SELECT 1 FROM visits WHERE visits.series = visit_withdrawals.series
                           AND visits.state = 'draft'))"_s,
         u"Visit %1: It is entered in error without a reason, an author or an instant, or while a draft."_s},
        {uR"(SELECT visit_withdrawals.series FROM visit_withdrawals
             WHERE NOT EXISTS (SELECT 1 FROM audit_trail JOIN visits ON visits.id = audit_trail.record
                               WHERE visits.series = visit_withdrawals.series
                                 AND audit_trail.action = 'withdrawn'))"_s,
         u"Visit %1: It is entered in error, but the audit trail does not say so."_s},
        {uR"(SELECT visits.id FROM audit_trail JOIN visits ON visits.id = audit_trail.record
             WHERE audit_trail.action = 'withdrawn' AND NOT EXISTS (
                 SELECT 1 FROM visit_withdrawals WHERE visit_withdrawals.series = visits.series))"_s,
         u"Visit %1: The audit trail says that it was entered in error, the visit does not."_s},
        {uR"(SELECT declared_equal.patient FROM declared_equal
             JOIN visits ON visits.id IN (declared_equal.earlier, declared_equal.later)
             WHERE visits.patient <> declared_equal.patient)"_s,
         u"Patient %1: Results are declared comparable with a visit of another patient."_s},
        {u"SELECT COUNT(*) FROM audit_trail HAVING COUNT(*) <> COALESCE(MAX(number), 0)"_s,
         u"The audit trail: Entries are missing; %1 are left."_s},
    };
    for (const Rule& rule : rules) {
        auto found = read(store, rule.broken, {}, [&](Row& row) -> base::Result<void> {
            faults += rule.sentence.arg(row.text());
            return {};
        });
        if (!found)
            return found;
    }
    return {};
}

} // namespace

base::Result<QStringList> faults(Store& store, const catalogue::Catalogue& catalogue, QDate today)
{
    const Transaction transaction(store, Transaction::Kind::Reads);
    if (!transaction.begun())
        return transaction.begun().error();
    auto faults = store.fileFaults();
    if (!faults || !faults->isEmpty())
        return faults; // what lies in broken pages cannot be judged
    if (auto added = addBrokenRules(*faults, store); !added)
        return added.error();

    const Patients patients(store);
    const Visits visits(store);
    const auto summaries = patients.all();
    if (!summaries)
        return summaries.error();
    for (const PatientSummary& summary : *summaries) {
        const auto patient = patients.withId(summary.id);
        if (!patient)
            return patient.error();
        addWrong(*faults, u"Patient %1"_s.arg(summary.id.text),
                 records::wrongWith(*patient, catalogue, today));
        const auto versions = visits.ofPatient(summary.id);
        if (!versions)
            return versions.error();
        for (const records::Visit& visit : *versions)
            addVisitFaults(*faults, visit, *patient, catalogue, today);
    }
    return faults;
}

} // namespace storage
