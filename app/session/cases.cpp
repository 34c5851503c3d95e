#include "app/session/session.h"

#include "core/catalogue/catalogue.h"
#include "core/records/as_of.h"
#include "core/storage/cases.h"

#include <algorithm>

namespace session
{

base::Result<std::vector<judging::Case>> Session::cases() const
{
    const storage::Cases cases(*m_store);
    const auto stamp = cases.stamp(m_released->release);
    if (!stamp)
        return stamp.error();
    return cases.all(*stamp);
}

base::Result<std::optional<judging::Case>> Session::caseOf(const records::PatientId& id) const
{
    const storage::Cases cases(*m_store);
    const auto stamp = cases.stamp(m_released->release);
    if (!stamp)
        return stamp.error();
    return cases.one(id, *stamp);
}

base::Result<judging::CaseLines> Session::linesOf(const records::PatientId& id) const
{
    const auto record = storage::Cases(*m_store).record(id);
    if (!record)
        return record.error();
    judging::CaseLines lines;
    lines.patient = record->patient;
    const auto visit = judging::summarisedVisit(record->visits);
    if (visit)
        lines.glance = judging::glanceAt(visit->visit()->id, {},
                                         {visit->visits(), record->patient, *m_catalogue, m_clinic.judging});
    return lines;
}

const records::Access& Session::access() const
{
    return m_store->access();
}

bool Session::workOutHere(const std::vector<records::PatientId>& patients)
{
    constexpr size_t few = 2;
    if (patients.size() > few && !m_store->isCopy())
        return false;
    std::vector<storage::WorkedOut> all;
    for (const records::PatientId& id : patients) {
        auto each = storage::Cases(*m_store).workOut(id, *m_catalogue, m_clinic.judging);
        if (each)
            all.push_back(std::move(*each));
    }
    return bool(keepCases(all));
}

base::Result<void> Session::keepCases(const std::vector<storage::WorkedOut>& all)
{
    storage::Cases cases(*m_store);
    const auto stamp = cases.stamp(m_released->release);
    if (!stamp)
        return stamp.error();
    return cases.keep(all, *stamp);
}

} // namespace session
