#include "core/storage/everyone.h"

#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/transaction.h"
#include "core/storage/visit_reading.h"

using namespace Qt::StringLiterals;

namespace storage
{

base::Result<void> eachPatient(Store& store, const TakeRecord& take, const records::Progress& progress)
{
    const Transaction transaction(store, Transaction::Kind::Reads);
    if (!transaction.begun())
        return transaction.begun().error();
    std::vector<records::PatientId> people;
    const auto takeId = [&](Row& row) -> base::Result<void> {
        people.push_back(row.key<records::Patient>());
        return {};
    };
    if (auto found = read(store, u"SELECT DISTINCT patient FROM visits"_s, {}, takeId); !found)
        return found;
    VisitReader reader(store);
    qint64 taken = 0;
    int told = -1;
    for (const records::PatientId& id : people) {
        const int percent = int(100 * taken++ / qint64(people.size()));
        if (std::exchange(told, percent) != percent && progress && !progress(percent))
            return base::stopped();
        const auto patient = Patients(store).withId(id);
        if (!patient)
            return patient.error();
        auto versions = reader.where(u"visits.patient = :key"_s, id.text);
        if (!versions)
            return versions.error();
        if (auto took = take(*patient, std::move(*versions)); !took)
            return took;
    }
    return {};
}

} // namespace storage
