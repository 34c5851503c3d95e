#include "app/session/patient_record.h"
#include "app/session/session.h"
#include "core/catalogue/catalogue.h"
#include "core/records/check.h"
#include "core/storage/patients.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace session
{

namespace
{

using base::Error;
using base::ErrorKind;

/// Any version stands for its visit; an unknown one for none.
records::VisitId seriesOf(const std::vector<records::Visit>& versions, const records::VisitId& id)
{
    const auto found = std::ranges::find(versions, id, &records::Visit::id);
    return found == versions.end() ? records::VisitId() : found->series;
}

} // namespace

base::Result<void> Session::mayChoose(const QString& measure, const QString& threshold, const QString& reason)
{
    if (!m_focus.patient)
        return Error{
            ErrorKind::NotFound, base::said("Evidence is chosen for a patient; open one first."), {}};
    const auto isMeant = [&](const catalogue::Threshold& row) {
        return row.id == threshold && row.measure == measure;
    };
    if (m_catalogue->measure(measure) == nullptr ||
        (!threshold.isEmpty() && !std::ranges::any_of(m_catalogue->thresholds, isMeant)))
        return Error{ErrorKind::Invalid, base::said("This threshold is not one of the measure's."), {}};
    if (const auto wrong = records::wrongWithReason(reason))
        return *wrong;
    return needPerson();
}

base::Result<void> Session::chooseEvidence(const QString& measure, const QString& threshold,
                                           const QString& reason)
{
    if (auto may = mayChoose(measure, threshold, reason); !may)
        return may;
    storage::Patients patients(*m_store);
    if (auto chosen = patients.chooseEvidence(*m_focus.patient, {measure, threshold, reason, {}, {}});
        !chosen)
        return chosen;
    return judgeAnew();
}

base::Result<void> Session::chooseEvidenceForPopulation(const QString& measure, const QString& threshold,
                                                        const QString& reason)
{
    if (auto may = mayChoose(measure, threshold, reason); !may)
        return may;
    const QString population = patientInFocus().population;
    if (population.isEmpty())
        return Error{ErrorKind::Invalid, base::said("The population of this patient is not recorded."), {}};
    if (auto chosen = m_store->chooseEvidence({population, {measure, threshold, reason, {}, {}}}); !chosen)
        return chosen;
    auto read = m_store->clinic();
    if (!read)
        return read.error();
    m_clinic = *read;
    Q_EMIT clinicChanged(fact());
    Q_EMIT judgingChanged(fact());
    return {};
}

base::Result<void> Session::declareEqual(const QString& measure, const records::VisitId& earlier,
                                         const records::VisitId& later, const QString& reason)
{
    return addDeclaration({measure, earlier, later, false, reason, {}, {}});
}

base::Result<void> Session::takeBackEqual(const QString& measure, const records::VisitId& earlier,
                                          const records::VisitId& later, const QString& reason)
{
    return addDeclaration({measure, earlier, later, true, reason, {}, {}});
}

base::Result<void> Session::addDeclaration(records::DeclaredEqual word)
{
    if (!m_focus.patient)
        return Error{ErrorKind::NotFound,
                     base::said("Results are declared comparable for a patient; open one first."),
                     {}};
    if (m_catalogue->measure(word.measure) == nullptr)
        return Error{ErrorKind::Invalid, base::said("This measure is not in the catalogue."), {}};
    if (const auto wrong = records::wrongWithReason(word.reason))
        return *wrong;
    if (auto known = needPerson(); !known)
        return known;
    word.earlier = seriesOf(versions(), word.earlier);
    word.later = seriesOf(versions(), word.later);
    if (auto added = storage::Patients(*m_store).declareEqual(*m_focus.patient, word); !added)
        return added;
    return judgeAnew();
}

base::Result<void> Session::judgeAnew()
{
    if (auto read = m_record->readPatient(*m_store); !read)
        return read;
    Q_EMIT judgingChanged(fact(m_record->patient().id));
    return {};
}

} // namespace session
