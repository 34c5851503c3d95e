#include "app/session/patient_record.h"

#include "core/storage/happenings.h"
#include "core/storage/patients.h"
#include "core/storage/targets.h"
#include "core/storage/visits.h"

#include <algorithm>
#include <tuple>

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
    auto rest = readHappenings(store);
    if (rest)
        rest = readTargets(store);
    if (!rest)
        clear();
    return rest;
}

base::Result<void> PatientRecord::readPatient(storage::Store& store)
{
    auto patient = storage::Patients(store).withId(m_patient.id);
    if (!patient)
        return patient.error();
    m_patient = std::move(*patient);
    return {};
}

base::Result<void> PatientRecord::readHappenings(storage::Store& store)
{
    const storage::Happenings happenings(store);
    auto versions = happenings.ofPatient(m_patient.id);
    if (!versions)
        return versions.error();
    auto asked = happenings.asked(m_patient.id);
    if (!asked)
        return asked.error();
    m_happenings = std::move(*versions);
    m_asked = std::move(*asked);
    return {};
}

base::Result<void> PatientRecord::readTargets(storage::Store& store)
{
    auto targets = storage::Targets(store).ofPatient(m_patient.id);
    if (!targets)
        return targets.error();
    m_targets = std::move(*targets);
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
    inEveryList(id, [&](records::Visit& version) { version = *visit; });
    if (chooseAnew)
        choose();
    return {};
}

base::Result<void> PatientRecord::readFinding(storage::Store& store, const records::VisitId& id,
                                              const QString& measure, records::Side side)
{
    if (std::ranges::find(m_versions, id, &records::Visit::id) == m_versions.end())
        return {};
    const auto read = storage::Visits(store).finding(id, measure, side);
    if (!read)
        return read.error();
    inEveryList(id, [&](records::Visit& version) { records::take(version, measure, side, *read); });
    return {};
}

template <class Change>
void PatientRecord::inEveryList(const records::VisitId& id, Change change)
{
    const auto in = [&](std::vector<records::Visit>& list) {
        const auto version = std::ranges::find(list, id, &records::Visit::id);
        if (version != list.end())
            change(*version);
    };
    in(m_versions);
    if (m_onRecord)
        in(*m_onRecord);
    if (m_visits)
        in(*m_visits);
}

/// Most patients' visits have one version each and none was entered in error; then one list is all.
void PatientRecord::choose()
{
    std::ranges::sort(m_versions, {}, [](const records::Visit& visit) {
        return std::tuple(visit.day, visit.series.text, visit.version);
    });
    m_onRecord.reset();
    m_visits.reset();
    if (std::ranges::any_of(m_versions, [](const records::Visit& visit) { return visit.version > 1; }))
        m_onRecord = records::onRecord(m_versions);
    if (std::ranges::any_of(m_versions,
                            [](const records::Visit& visit) { return visit.withdrawn.has_value(); }))
        m_visits = records::current(m_versions, true);
}

} // namespace session
