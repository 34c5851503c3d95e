// What the page saves, and what it does where saving fails.

#include "app/visits/examination_page.h"

#include "app/visits/focus_strip.h"
#include "app/visits/recording.h"
#include "app/visits/section_box.h"
#include "app/visits/side_field.h"
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
    Finding finding = withValue(*visit, field->place(), entry.value);
    finding.trials = entry.trials;
    finding.taps = entry.taps;
    finding.capReached = entry.capReached;
    m_awaited.erase(field->place());
    m_current = field;
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

void ExaminationPage::giveReason(const Place& place, const QString& reason)
{
    SideField* field = fieldAt(place);
    const Visit* visit = this->visit();
    if (field == nullptr || visit == nullptr || isReadOnly())
        return;
    const auto awaited = m_awaited.find(place);
    if (awaited != m_awaited.end() && !reason.isEmpty()) {
        save(field, {values::Missing{awaited->second, reason}, {}, false, session::Typing::Anew, false});
        return;
    }
    const Finding* there = visit->finding(place.measure, place.side);
    const auto* missing = there == nullptr ? nullptr : std::get_if<values::Missing>(&there->value);
    if (missing == nullptr || missing->reason == reason)
        return;
    const auto saved = recordBeside(m_session, visit->id, place, [&](Finding& finding) {
        std::get<values::Missing>(finding.value).reason = reason;
    });
    if (!saved)
        field->refuse(saved.error().what);
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
