#include "core/storage/whole_records.h"

#include "core/storage/audit_trail.h"
#include "core/storage/happenings.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/targets.h"
#include "core/storage/transaction.h"
#include "core/storage/visit_reading.h"
#include "core/storage/visits.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using records::PatientId;
using records::WholeRecord;

base::Result<WholeRecord> recordOf(Store& store, VisitReader& reader, const PatientId& id)
{
    auto patient = Patients(store).withId(id);
    if (!patient)
        return patient.error();
    auto visits = reader.where(u"visits.patient = :key"_s, id.text);
    if (!visits)
        return visits.error();
    auto happenings = Happenings(store).ofPatient(id);
    if (!happenings)
        return happenings.error();
    auto asked = Happenings(store).asked(id);
    if (!asked)
        return asked.error();
    auto targets = Targets(store).ofPatient(id);
    if (!targets)
        return targets.error();
    return WholeRecord{std::move(*patient), std::move(*visits), std::move(*happenings), std::move(*asked),
                       std::move(*targets)};
}

base::Result<std::vector<PatientId>> everybody(const Store& store)
{
    std::vector<PatientId> ids;
    auto found = read(store, u"SELECT id FROM patients ORDER BY family, given, id"_s, {},
                      [&](Row& row) -> base::Result<void> {
                          ids.push_back(row.key<records::Patient>());
                          return {};
                      });
    if (!found)
        return found.error();
    return ids;
}

/// In the order in which the records let one follow another.
std::vector<records::Visit> byVersion(std::vector<records::Visit> visits)
{
    std::ranges::stable_sort(visits, {}, &records::Visit::version);
    return visits;
}

} // namespace

base::Result<std::optional<WholeRecord>> wholeRecord(Store& store, const PatientId& id)
{
    const Transaction transaction(store, Transaction::Kind::Reads);
    if (!transaction.begun())
        return transaction.begun().error();
    VisitReader reader(store);
    auto record = recordOf(store, reader, id);
    if (!record && record.error().kind == base::ErrorKind::NotFound)
        return std::optional<WholeRecord>();
    if (!record)
        return record.error();
    return std::optional(std::move(*record));
}

base::Result<void> eachWholeRecord(Store& store, const std::optional<std::vector<PatientId>>& patients,
                                   const std::function<base::Result<void>(WholeRecord)>& take,
                                   const records::Progress& progress)
{
    const Transaction transaction(store, Transaction::Kind::Reads);
    if (!transaction.begun())
        return transaction.begun().error();
    const auto ids = patients ? base::Result(*patients) : everybody(store);
    if (!ids)
        return ids.error();
    VisitReader reader(store);
    size_t taken = 0;
    for (const PatientId& id : *ids) {
        if (!records::goesOn(progress, taken++, ids->size()))
            return base::stopped();
        auto record = recordOf(store, reader, id);
        if (!record)
            return record.error();
        if (auto took = take(std::move(*record)); !took)
            return took;
    }
    return {};
}

base::Result<void> bringRecord(Store& store, const WholeRecord& added, bool isPatientNew,
                               const std::vector<std::pair<records::VisitId, records::Withdrawal>>& withdrawn)
{
    return together(store, [&]() -> base::Result<void> {
        const PatientId& id = added.patient.id;
        Patients patients(store);
        Visits visits(store);
        Happenings happenings(store);
        Targets targets(store);
        if (isPatientNew) {
            records::Patient patient = added.patient;
            patient.revision = 0;
            if (const auto saved = patients.save(patient); !saved)
                return saved.error();
        }
        for (const records::Visit& visit : byVersion(added.visits)) {
            if (const auto brought = visits.bring(visit); !brought)
                return brought.error();
            if (auto noted = note(store, u"imported"_s, u"visit"_s, visit.id.text); !noted)
                return noted;
        }
        for (const auto& [series, withdrawal] : withdrawn) {
            if (auto brought = visits.bringWithdrawal(series, withdrawal); !brought)
                return brought;
        }
        for (const records::Happening& happening : added.happenings) {
            if (auto brought = happenings.bring(happening); !brought)
                return brought;
        }
        for (const records::Asked& asked : added.asked) {
            if (auto brought = happenings.bringAsked(asked); !brought)
                return brought;
        }
        for (const records::Target& target : added.targets) {
            if (auto brought = targets.bring(id, target); !brought)
                return brought;
        }
        for (const records::EvidenceChoice& choice : added.patient.choices) {
            if (auto brought = patients.bring(id, choice); !brought)
                return brought;
        }
        for (const records::DeclaredEqual& word : added.patient.declared) {
            if (auto brought = patients.bring(id, word); !brought)
                return brought;
        }
        return note(store, u"imported"_s, u"patient"_s, id.text);
    });
}

} // namespace storage
