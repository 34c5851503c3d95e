#include "app/shell/visit_actions.h"

#include "app/patients/typed_day.h"
#include "app/writing/author_setting.h"
#include "core/records/check.h"

#include <algorithm>

namespace shell
{

VisitActions::VisitActions(session::Session& session, session::Prompts& prompts, QObject* parent)
    : QObject(parent), m_session(session), m_prompts(prompts)
{
}

void VisitActions::newVisit()
{
    if (m_session.focus().patient)
        start(m_session.today());
}

void VisitActions::newVisitOnAnotherDay()
{
    if (!m_session.focus().patient)
        return;
    QString typed = m_session.today().toString(Qt::ISODate);
    while (const auto answer = m_prompts.line(tr("On which day was the visit?"),
                                              tr("Day, as 2026-03-04 or 04-Mar-2026"), typed)) {
        typed = *answer;
        if (const auto day = patients::dayTyped(typed)) {
            start(*day);
            return;
        }
        m_prompts.tell({base::ErrorKind::Invalid, tr("“%1” is not a day of the calendar.").arg(typed), {}});
    }
}

void VisitActions::start(QDate day)
{
    const auto open = std::ranges::find_if(m_session.visits(), [day](const records::Visit& visit) {
        return visit.day == day && visit.state == records::VisitState::Draft;
    });
    if (open != m_session.visits().end()) {
        const records::VisitId id = open->id;
        m_session.chooseVisit(id);
        Q_EMIT started();
        return;
    }
    records::Visit wished;
    wished.day = day;
    const auto wrong =
        records::wrongWith(wished, m_session.patientInFocus(), m_session.catalogue(), m_session.today());
    if (wrong) {
        m_prompts.tell(*wrong);
    } else if (const auto visit = m_session.startVisit(day)) {
        Q_EMIT started();
    } else {
        m_prompts.tell(visit.error());
    }
}

bool VisitActions::maySign(const records::Visit& visit)
{
    if (visit.findings.empty())
        return m_prompts.confirmed(
            tr("Nothing is recorded in this visit. Sign it all the same?"),
            tr("A signed visit is not changed any more; it can be amended with a reason."),
            tr("Sign an empty visit"));
    if (visit.conditions.empty() || visit.conditionsConfirmed)
        return true;
    return m_prompts.confirmed(
        tr("The conditions were carried forward and are not confirmed. Sign all the same?"),
        tr("Whether results are comparable rests on them: walking aid, footwear, start, distance, "
           "medication."),
        tr("Sign unconfirmed"));
}

void VisitActions::sign()
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr || visit->state != records::VisitState::Draft)
        return;
    const records::VisitId id = visit->id;
    const QString question = tr("Sign the visit of %1?").arg(records::dayInWords(visit->day));
    if (!maySign(*visit))
        return;
    const auto author = m_prompts.author(question, writing::lastAuthor());
    if (!author)
        return;
    writing::rememberAuthor(*author);
    if (const auto done = m_session.signVisit(id, *author); !done)
        m_prompts.tell(done.error());
}

void VisitActions::amend()
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr || visit->state == records::VisitState::Draft)
        return;
    const records::VisitId id = visit->id;
    const auto reason = m_prompts.line(
        tr("Why is the visit of %1 amended?").arg(records::dayInWords(visit->day)), tr("Reason"), {});
    if (!reason)
        return;
    if (const auto done = m_session.amendVisit(id, *reason))
        Q_EMIT started();
    else
        m_prompts.tell(done.error());
}

void VisitActions::discard()
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr || visit->state != records::VisitState::Draft)
        return;
    const records::VisitId id = visit->id;
    const QString explanation = visit->version > 1 ? tr("The signed version stays as it is.")
                                                   : tr("%n finding(s) in it cannot be brought back.",
                                                        nullptr, static_cast<int>(visit->findings.size()));
    if (!m_prompts.confirmed(tr("Discard the draft of %1?").arg(records::dayInWords(visit->day)), explanation,
                             tr("Discard draft")))
        return;
    if (const auto done = m_session.discardVisit(id); !done)
        m_prompts.tell(done.error());
}

} // namespace shell
