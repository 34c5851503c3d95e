#include "app/session/session.h"

#include "core/catalogue/catalogue.h"
#include "core/judging/repeats.h"
#include "core/judging/service_report.h"
#include "core/storage/everyone.h"
#include "core/storage/letters.h"

namespace session
{

base::Result<void> Session::eachPatient(const TakePatient& take) const
{
    return storage::eachPatient(
        *m_store, [&](const records::Patient& patient, const std::vector<records::Visit>& versions) {
            take(patient, records::current(versions));
            return base::Result<void>();
        });
}

base::Result<judging::ServiceReport> Session::serviceReport(const judging::Period& period,
                                                            const records::Progress& progress) const
{
    judging::ServiceTally tally(period, *m_catalogue, m_clinic);
    const storage::Letters letters(*m_store);
    const auto taken = storage::eachPatient(
        *m_store,
        [&](const records::Patient& patient,
            const std::vector<records::Visit>& versions) -> base::Result<void> {
            const auto signedOnes = letters.signedOf(patient.id);
            if (!signedOnes)
                return signedOnes.error();
            tally.add(patient, records::current(versions), *signedOnes);
            return {};
        },
        progress);
    if (!taken)
        return taken.error();
    return tally.report();
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
