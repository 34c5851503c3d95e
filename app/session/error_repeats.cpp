#include "app/session/session.h"
#include "core/storage/visits.h"

namespace session
{

base::Result<interpretation::RepeatedResults>
Session::repeatedResults(const interpretation::RepeatQuestion& question) const
{
    const auto people = patients();
    if (!people)
        return people.error();
    std::vector<interpretation::RepeatCandidates> all;
    for (const storage::PatientSummary& person : *people) {
        if (person.visits == 0)
            continue;
        const auto patient = storage::Patients(*m_store).withId(person.id);
        if (!patient)
            return patient.error();
        const auto versions = storage::Visits(*m_store).ofPatient(person.id);
        if (!versions)
            return versions.error();
        all.push_back(interpretation::repeatCandidates(question, records::current(*versions),
                                                       patient->population, m_catalogue));
    }
    return interpretation::repeatedResults(all);
}

} // namespace session
