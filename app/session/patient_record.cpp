#include "app/session/patient_record.h"

#include "core/storage/patients.h"
#include "core/storage/visits.h"

#include <algorithm>

namespace session
{

namespace
{

/// Whether one reading of a version stands in the same place of every list as the other.
bool standsAlike(const records::Visit& before, const records::Visit& now)
{
    return before.series == now.series && before.version == now.version && before.day == now.day &&
           before.state == now.state && before.withdrawn == now.withdrawn;
}

} // namespace

base::Result<void> PatientRecord::read(storage::Store& store, const records::PatientId& id)
{
    clear();
    auto patient = storage::Patients(store).withId(id);
    if (!patient)
        return patient.error();
    auto versions = storage::Visits(store).ofPatient(id);
    if (!versions)
        return versions.error();
    m_patient = std::move(*patient);
    m_versions = std::move(*versions);
    choose();
    return {};
}

base::Result<void> PatientRecord::readPatient(storage::Store& store)
{
    auto patient = storage::Patients(store).withId(m_patient.id);
    if (!patient)
        return patient.error();
    m_patient = std::move(*patient);
    return {};
}

base::Result<void> PatientRecord::readVisit(storage::Store& store, const records::VisitId& id)
{
    const auto known = std::ranges::find(m_versions, id, &records::Visit::id);
    if (known == m_versions.end())
        return {};
    auto visit = storage::Visits(store).withId(id);
    if (!visit)
        return visit.error();
    const bool chooseAnew = !standsAlike(*known, *visit);
    *known = *visit;
    if (chooseAnew)
        choose();
    else
        for (std::vector<records::Visit>* list : {&m_visits, &m_onRecord})
            std::ranges::replace_if(
                *list, [&](const records::Visit& other) { return other.id == id; }, *visit);
    return {};
}

void PatientRecord::choose()
{
    m_visits = records::current(m_versions, true);
    m_onRecord = records::onRecord(m_versions);
}

} // namespace session
