#include "app/session/session.h"
#include "core/records/check.h"

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
        return Error{
            ErrorKind::NotFound, u"Results are declared comparable for a patient; open one first."_s, {}};
    if (m_catalogue.measure(word.measure) == nullptr)
        return Error{ErrorKind::Invalid, u"This measure is not in the catalogue."_s, {}};
    if (const auto wrong = records::wrongWithReason(word.reason))
        return *wrong;
    if (auto known = needPerson(); !known)
        return known;
    word.earlier = seriesOf(m_versions, word.earlier);
    word.later = seriesOf(m_versions, word.later);
    if (auto added = storage::Patients(*m_store).declareEqual(*m_focus.patient, word); !added)
        return added;
    return judgeAnew();
}

base::Result<void> Session::judgeAnew()
{
    auto patient = storage::Patients(*m_store).withId(*m_focus.patient);
    if (!patient)
        return patient.error();
    m_patient = std::move(*patient);
    Q_EMIT patientChanged(m_patient.id);
    Q_EMIT focusChanged();
    return {};
}

} // namespace session
