#include "app/session/session.h"

#include "core/catalogue/catalogue.h"
#include "core/judging/repeats.h"
#include "core/storage/everyone.h"

namespace session
{

base::Result<void> Session::eachPatient(const TakePatient& take) const
{
    return storage::eachPatient(
        *m_store, [&](const records::Patient& patient, const std::vector<records::Visit>& versions) {
            take(patient, records::current(versions));
        });
}

base::Result<judging::RepeatedResults> Session::repeatedResults(const judging::RepeatQuestion& question) const
{
    std::vector<judging::RepeatCandidates> all;
    const auto taken =
        eachPatient([&](const records::Patient& patient, const std::vector<records::Visit>& visits) {
            all.push_back(judging::repeatCandidates(question, visits, patient.population, *m_catalogue));
        });
    if (!taken)
        return taken.error();
    return judging::repeatedResults(all);
}

} // namespace session
