#include "app/shell/visit_actions.h"

#include "app/patients/typed_day.h"
#include "app/shell/settings.h"
#include "app/writing/author_setting.h"
#include "core/records/check.h"

#include <algorithm>

namespace shell
{

VisitActions::VisitActions(session::Session& session, session::Prompts& prompts, QObject* parent)
    : QObject(parent), m_session(session), m_prompts(prompts)
{
}

void VisitActions::newVisit(const QString& form)
{
    if (m_session.focus().patient)
        start(m_session.today(), form);
}

std::vector<const catalogue::Form*> VisitActions::forms() const
{
    std::vector<const catalogue::Form*> all;
    for (const catalogue::Form& form : m_session.catalogue().forms)
        all.push_back(&form);
    const QString last = rememberedForm();
    std::stable_partition(all.begin(), all.end(),
                          [&](const catalogue::Form* form) { return form->id == last; });
    return all;
}

void VisitActions::newVisitOnAnotherDay(const QString& form)
{
    if (!m_session.focus().patient)
        return;
    QString typed = m_session.today().toString(Qt::ISODate);
    while (const auto answer = m_prompts.line(tr("On which day was the visit?"),
                                              tr("Day, as 2026-03-04 or 04-Mar-2026"), typed)) {
        typed = *answer;
        if (const auto day = patients::dayTyped(typed)) {
            start(*day, form);
            return;
        }
        m_prompts.tell({base::ErrorKind::Invalid, tr("“%1” is not a day of the calendar.").arg(typed), {}});
    }
}

void VisitActions::start(QDate day, const QString& form)
{
    const auto open = std::ranges::find_if(m_session.visits(), [day](const records::Visit& visit) {
        return visit.day == day && visit.state == records::VisitState::Draft;
    });
    if (open != m_session.visits().end()) {
        goOnWith(*open, form);
        return;
    }
    records::Visit wished;
    wished.day = day;
    const auto wrong =
        records::wrongWith(wished, m_session.patientInFocus(), m_session.catalogue(), m_session.today());
    if (wrong) {
        m_prompts.tell(*wrong);
    } else if (const auto visit = m_session.startVisit(day, form)) {
        if (!form.isEmpty())
            rememberForm(form);
        Q_EMIT started();
    } else {
        m_prompts.tell(visit.error());
    }
}

void VisitActions::goOnWith(const records::Visit& visit, const QString& form)
{
    const records::VisitId id = visit.id;
    const bool isOther = !form.isEmpty() && form != visit.form;
    m_session.chooseVisit(id);
    if (isOther)
        m_prompts.tell({base::ErrorKind::Refused,
                        tr("A draft of this day is open and is gone on with, in the form it was begun with."),
                        {}});
    Q_EMIT started();
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
    const auto author = writing::signer(m_session, m_prompts, question);
    if (!author)
        return;
    if (const auto done = m_session.signVisit(id, *author); !done)
        m_prompts.tell(done.error());
}

void VisitActions::amend()
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr || visit->state == records::VisitState::Draft || visit->withdrawn)
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

void VisitActions::withdraw()
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr || visit->state == records::VisitState::Draft || visit->withdrawn)
        return;
    const records::VisitId id = visit->id;
    const QStringList lines = {
        tr("Was the visit of %1 entered in error?").arg(records::dayInWords(visit->day)),
        records::identityLine(m_session.patientInFocus(), m_session.today()),
        tr("It stays readable in the history but counts no more: no judgement, trend, letter or export holds "
           "it. Nothing takes this back."),
        tr("Your name and your reason are kept with it.")};
    const auto reason = m_prompts.line(lines.join(u'\n'), tr("Reason, such as the wrong person"), {});
    if (!reason)
        return;
    if (const auto done = m_session.withdrawVisit(id, *reason); !done)
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
