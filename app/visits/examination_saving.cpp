// What the page saves, and what it does where saving fails.

#include "app/visits/examination_page.h"

#include "app/visits/focus_strip.h"
#include "app/visits/recording.h"
#include "app/visits/section_box.h"
#include "app/visits/side_field.h"
#include "app/visits/typed.h"
#include "core/records/wording.h"

using namespace Qt::StringLiterals;

namespace visits
{

using records::Finding;
using records::Visit;

void ExaminationPage::save(SideField* field, const Entry& entry)
{
    const Visit* visit = this->visit();
    if (visit == nullptr || isReadOnly())
        return;
    makeCurrent(field);
    Finding finding = withValue(*visit, field->place(), entry.value);
    finding.trials = entry.trials;
    finding.trialNumbers = entry.trialNumbers;
    finding.taps = entry.taps;
    finding.capReached = entry.capReached;
    m_awaited.erase(field->place());
    m_saving = field;
    const auto saved = record(m_session, visit->id, finding, entry.typing);
    m_saving = nullptr;
    if (!saved) {
        if (!entry.isTyped)
            field->show(visit->finding(finding.measure, finding.side), false);
        const bool isNews = !field->isRefused() && saved.error().kind != base::ErrorKind::Invalid;
        field->refuse(saved.error().what);
        if (isNews)
            m_prompts.tell(saved.error());
    } else if (entry.isTyped) {
        const Finding* stored = visit->finding(finding.measure, finding.side);
        field->accept(stored == nullptr ? std::nullopt : std::optional(*stored));
    } else {
        field->show(&finding, false);
    }
    showStrip();
}

void ExaminationPage::clear(SideField* field)
{
    const Visit* visit = this->visit();
    if (visit == nullptr || isReadOnly())
        return;
    m_awaited.erase(field->place());
    told(recordNothing(m_session, visit->id, field->place()));
    field->show(visit->finding(field->place().measure, field->place().side), false);
    showStrip();
}

void ExaminationPage::takeBack(SideField* field)
{
    const Visit* visit = this->visit();
    if (visit == nullptr || isReadOnly())
        return;
    const Finding before =
        field->before() ? *field->before() : withValue(*visit, field->place(), values::Missing{});
    m_saving = field;
    const auto saved = record(m_session, visit->id, before, session::Typing::Further);
    m_saving = nullptr;
    told(saved);
    if (saved)
        field->accept(field->before());
}

void ExaminationPage::chooseAbsence(SideField* field, values::Absence absence)
{
    if (isReadOnly())
        return;
    if (absence == values::Absence::NotAttempted) {
        m_awaited[field->place()] = absence;
        enter(field);
        field->await(absence);
        showStrip();
        m_strip->askReason();
        return;
    }
    save(field, {values::Missing{absence, {}}, {}, false, session::Typing::Anew, false});
}

void ExaminationPage::giveReason(const Place& place, const QString& reason, session::Typing typing)
{
    SideField* field = fieldAt(place);
    const Visit* visit = this->visit();
    if (field == nullptr || visit == nullptr || isReadOnly())
        return;
    if (const auto awaited = m_awaited.find(place); awaited != m_awaited.end()) {
        if (!reason.isEmpty())
            save(field, {values::Missing{awaited->second, reason}, {}, false, session::Typing::Anew, false});
        return;
    }
    const Finding* there = visit->finding(place.measure, place.side);
    if (there == nullptr || !std::holds_alternative<values::Missing>(there->value))
        return;
    const auto saved = recordBeside(
        m_session, visit->id, place,
        [&](Finding& finding) { std::get<values::Missing>(finding.value).reason = reason; }, typing);
    field->refuseBeside(saved ? QString() : saved.error().what);
}

void ExaminationPage::giveNote(const Place& place, const QString& note, session::Typing typing)
{
    SideField* field = fieldAt(place);
    if (field == nullptr || isReadOnly())
        return;
    const bool isNews = !m_strip->unsavedNotes().contains(place);
    const auto saved = recordBeside(
        m_session, *m_visit, place, [&](Finding& finding) { finding.note = note; }, typing);
    m_strip->keepNote(place, saved ? std::nullopt : std::optional(note));
    field->refuseBeside(saved ? QString() : saved.error().what);
    if (!saved && isNews)
        m_prompts.tell(saved.error());
}

void ExaminationPage::giveSigns(const Place& place, const QStringList& signs)
{
    if (isReadOnly())
        return;
    told(recordBeside(m_session, *m_visit, place, [&](Finding& finding) { finding.signs = signs; }));
    showStrip();
}

void ExaminationPage::time(const Place& place, qint64 milliseconds)
{
    SideField* field = fieldAt(place);
    if (field == nullptr || isReadOnly())
        return;
    const QString text = secondsText(milliseconds, field->measure());
    if (field->fillEmptyTrial(text))
        return;
    if (m_prompts.mayLose(tr("Put %1 s in place of %2 s?").arg(text, field->trialInUse()),
                          tr("%1: no trial is empty.").arg(field->title()), tr("Replace the time")))
        field->replaceTrial(text);
    else
        field->hint(tr("%1 s was timed and is not recorded: no trial is empty.").arg(text));
}

void ExaminationPage::confirmConditions()
{
    const Visit* visit = this->visit();
    if (visit != nullptr && !isReadOnly() && !visit->conditionsConfirmed)
        told(m_session.saveConditions(visit->id, visit->conditions, true));
}

void ExaminationPage::writeAllNormal(SectionBox* box)
{
    const Visit* visit = this->visit();
    if (visit == nullptr || isReadOnly())
        return;
    flush();
    const auto findings = normalFindings(box->section(), *visit);
    if (findings.empty())
        return;
    QStringList lines;
    for (const Finding& finding : findings) {
        const SideField* field = fieldAt({finding.measure, finding.side});
        lines += tr("%1: %2", "test: value")
                     .arg(field->title(), records::written(finding.value, field->measure(), {}));
    }
    if (m_prompts.confirmed(
            tr("Were these tests of %1 done?").arg(box->section().title),
            tr("You state that each was done and seen as listed here (one Undo takes all back):") +
                u"\n\n"_s + lines.join(u'\n'),
            tr("All were done and seen so")))
        told(m_session.saveFindings(visit->id, findings));
}

void ExaminationPage::amend()
{
    const Visit* visit = this->visit();
    if (visit == nullptr)
        return;
    const auto reason = m_prompts.line(tr("Amend this visit"), tr("Reason for the amendment"), {});
    if (!reason)
        return;
    if (const auto amended = m_session.amendVisit(visit->id, *reason); !amended)
        m_prompts.tell(amended.error());
}

void ExaminationPage::startVisit()
{
    if (const auto started = m_session.startVisit(m_session.today()); !started)
        m_prompts.tell(started.error());
}

} // namespace visits
