#include "app/shell/visit_actions.h"

#include "app/session/messages.h"
#include "app/session/typed_day.h"
#include "app/shell/settings.h"
#include "app/visits/gaps.h"
#include "app/writing/author_setting.h"
#include "core/records/check.h"
#include "core/records/wording.h"

#include <algorithm>

using namespace Qt::StringLiterals;

namespace shell
{

namespace
{

/// What stands on a button: an ampersand must not become a key, and a long title has no room.
QString onGoButton(QString title)
{
    constexpr int most = 30;
    if (title.size() > most)
        title = title.left(most - 1) + u'…';
    return title.replace(u'&', u"&&"_s);
}

template <class Entry>
QString titles(const std::vector<const Entry*>& entries)
{
    QStringList titles;
    for (const Entry* entry : entries)
        titles += entry->title;
    return session::joined("%1, %2", titles);
}

QString inWords(const visits::Gaps& gaps)
{
    QStringList lines;
    for (const catalogue::RedFlag* flag : gaps.redFlags)
        lines += VisitActions::tr("Red flag answered yes, nothing said about it yet: %1").arg(flag->question);
    if (!gaps.redFlags.empty())
        lines += VisitActions::tr("Say what was done, and when; then the visit can be signed.");
    if (gaps.isEmpty)
        lines += VisitActions::tr("Nothing is recorded in this visit.");
    if (!gaps.blank.empty())
        lines += VisitActions::tr("Expected and left blank: %1.").arg(titles(gaps.blank));
    if (!gaps.conditions.empty())
        lines += VisitActions::tr("Conditions not recorded, without which results cannot be compared: %1.")
                     .arg(titles(gaps.conditions));
    if (gaps.isUnconfirmed)
        lines +=
            VisitActions::tr("The conditions were carried forward and are not confirmed. Whether results "
                             "are comparable rests on them.");
    lines += VisitActions::tr("A signed visit is not changed any more; it can be amended with a reason.");
    return lines.join(u'\n');
}

/// What is recorded in a visit, a line for each finding.
QString contents(const records::Visit& visit, const catalogue::Catalogue& catalogue)
{
    QStringList lines;
    for (const records::Finding& finding : visit.findings) {
        const catalogue::Measure* measure = catalogue.measure(finding.measure);
        const QString side = records::written(finding.side, session::screenPhrases());
        const QString title = measure == nullptr ? finding.measure : measure->title;
        const QString value = measure == nullptr
                                  ? QString()
                                  : records::written(finding.value, *measure, session::screenPhrases());
        lines += side.isEmpty() ? VisitActions::tr("%1: %2", "test: value").arg(title, value)
                                : VisitActions::tr("%1, %2: %3", "test, side: value").arg(title, side, value);
    }
    return lines.isEmpty() ? VisitActions::tr("No finding is recorded in it.") : lines.join(u'\n');
}

} // namespace

QString signQuestion(QDate day)
{
    return VisitActions::tr("Sign the visit of %1?").arg(session::dayInWords(day));
}

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
        if (const auto day = session::dayTyped(typed)) {
            start(*day, form);
            return;
        }
        m_prompts.tell({base::ErrorKind::Invalid,
                        base::verbatim(tr("“%1” is not a day of the calendar.").arg(typed)),
                        {}});
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
        m_prompts.tell(
            {base::ErrorKind::Refused,
             base::verbatim(
                 tr("A draft of this day is open and is gone on with, in the form it was begun with.")),
             {}});
    Q_EMIT started();
}

QString VisitActions::whose() const
{
    return records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases());
}

/// Lists what is left open and offers the way there; does not stand in the way of signing.
bool VisitActions::maySign(const records::Visit& visit)
{
    const visits::Gaps gaps = visits::gapsOf(visit, m_session.patientInFocus(), m_session.catalogue());
    if (gaps.isNone())
        return true;
    if (!gaps.redFlags.empty()) {
        if (m_prompts.chosen(signQuestion(visit.day), whose() + u"\n\n"_s + inWords(gaps),
                             {tr("Go to the &red flag")}))
            Q_EMIT redFlagAsked(gaps.redFlags.front()->id);
        return false;
    }
    QStringList answers;
    if (!gaps.blank.empty())
        answers += tr("&Go to “%1”").arg(onGoButton(gaps.blank.front()->title));
    const bool lacksConditions = gaps.isUnconfirmed || !gaps.conditions.empty();
    if (lacksConditions)
        answers += tr("Go to the &conditions");
    if (answers.isEmpty())
        answers += tr("&Go back");
    answers += tr("&Sign all the same");
    const auto answer =
        m_prompts.chosen(signQuestion(visit.day), whose() + u"\n\n"_s + inWords(gaps), answers);
    if (!answer || answer == answers.size() - 1)
        return answer.has_value();
    if (*answer == 0 && !gaps.blank.empty())
        Q_EMIT testAsked(gaps.blank.front()->id);
    else if (lacksConditions)
        Q_EMIT conditionsAsked(gaps.conditions.empty() ? QString() : gaps.conditions.front()->id);
    return false;
}

void VisitActions::sign()
{
    const records::Visit* visit = m_session.visitInFocus();
    if (visit == nullptr || visit->state != records::VisitState::Draft)
        return;
    const records::VisitId id = visit->id;
    const QString question = signQuestion(visit->day);
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
        tr("Why is the visit of %1 amended?").arg(session::dayInWords(visit->day)), tr("Reason"), {});
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
        tr("Was the visit of %1 entered in error?").arg(session::dayInWords(visit->day)),
        records::identityLine(m_session.patientInFocus(), m_session.today(), session::screenPhrases()),
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
    const QString loss = visit->version > 1 ? tr("The signed version stays as it is. Lost would be:")
                                            : tr("Lost for good would be:");
    if (!m_prompts.mayLose(tr("Discard the draft of %1?").arg(session::dayInWords(visit->day)),
                           whose() + u"\n\n"_s + loss + u'\n' + contents(*visit, m_session.catalogue()),
                           tr("Discard draft")))
        return;
    if (const auto done = m_session.discardVisit(id); !done)
        m_prompts.tell(done.error());
}

} // namespace shell
