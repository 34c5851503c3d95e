// What the page saves, and what it does where saving fails.

#include "app/session/messages.h"
#include "app/visits/examination_page.h"

#include "app/visits/focus_strip.h"
#include "app/visits/meaning_cell.h"
#include "app/visits/section_box.h"
#include "app/visits/side_field.h"
#include "app/visits/typed.h"
#include "app/widgets/announcement.h"
#include "core/records/wording.h"

using namespace Qt::StringLiterals;

namespace visits
{

using records::Finding;
using records::Visit;

namespace
{

constexpr int handRestsMs = 600; ///< a screen reader that speaks is cut short by the next key

} // namespace

void ExaminationPage::save(SideField* field, const Entry& entry)
{
    if (m_draft.isReadOnly())
        return;
    makeCurrent(field);
    const auto saved = m_draft.enter(field->place(), entry);
    const Finding* stored = m_draft.stored(field->place());
    if (!saved) {
        if (!entry.isTyped)
            field->show(stored, false);
        const bool isNews = !field->isRefused() && saved.error().kind != base::ErrorKind::Invalid;
        field->refuse(session::sentence(saved.error()));
        if (isNews)
            m_prompts.tell(saved.error());
    } else if (entry.isTyped) {
        field->accept(stored == nullptr ? std::nullopt : std::optional(*stored));
    } else {
        field->show(stored, false);
    }
    if (saved) {
        m_toSpeak = field->place();
        m_speaking.start(handRestsMs);
    }
    showStrip();
}

/// Once the hand rests a screen reader says that the value is kept, and what it comes to.
void ExaminationPage::speak()
{
    const SideField* field = fieldAt(m_toSpeak);
    const Finding* kept = m_draft.stored(m_toSpeak);
    if (field == nullptr || kept == nullptr || field->isRefused())
        return;
    const QString value = records::written(kept->value, field->measure(), session::screenPhrases());
    const QString verdict = boxOf(field)->meaningOf(m_toSpeak.measure)->words(m_toSpeak.side);
    const QString saved = tr("Saved: %1, %2", "test and side, its value").arg(field->title(), value);
    widgets::announce(
        *this, verdict.isEmpty() ? saved : tr("%1. %2", "saved value, its verdict").arg(saved, verdict));
}

void ExaminationPage::clear(SideField* field)
{
    if (m_draft.isReadOnly())
        return;
    told(m_draft.clear(field->place()));
    field->show(m_draft.stored(field->place()), false);
    showStrip();
}

void ExaminationPage::takeBack(SideField* field)
{
    const auto done = m_draft.takeBack(field->place(), field->before());
    told(done);
    if (done && !m_draft.isReadOnly())
        field->accept(field->before());
}

void ExaminationPage::chooseAbsence(SideField* field, values::Absence absence)
{
    if (m_draft.isReadOnly())
        return;
    if (absence == values::Absence::NotAttempted) {
        m_draft.await(field->place(), absence);
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
    if (field == nullptr || m_draft.isReadOnly())
        return;
    if (const auto awaited = m_draft.awaited(place)) {
        if (!reason.isEmpty())
            save(field, {values::Missing{*awaited, reason}, {}, false, session::Typing::Anew, false});
        return;
    }
    const auto saved = m_draft.giveReason(place, reason, typing);
    field->refuseBeside(saved ? QString() : session::sentence(saved.error()));
}

void ExaminationPage::giveNote(const Place& place, const QString& note, session::Typing typing)
{
    SideField* field = fieldAt(place);
    if (field == nullptr || m_draft.isReadOnly())
        return;
    const bool isNews = !m_draft.heldNotes().contains(place);
    const auto saved = m_draft.giveNote(place, note, typing);
    field->refuseBeside(saved ? QString() : session::sentence(saved.error()));
    if (!saved && isNews)
        m_prompts.tell(saved.error());
}

void ExaminationPage::giveSigns(const Place& place, const QStringList& signs)
{
    told(m_draft.giveSigns(place, signs));
    showStrip();
}

void ExaminationPage::time(const Place& place, qint64 milliseconds)
{
    SideField* field = fieldAt(place);
    if (field == nullptr || m_draft.isReadOnly())
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

void ExaminationPage::count(const Place& place, int inARow, std::optional<int> missteps)
{
    SideField* field = fieldAt(place);
    if (field == nullptr || m_draft.isReadOnly())
        return;
    const auto written = [](int steps, const catalogue::Measure& measure) {
        return Entry{values::Quantity{double(steps), measure.unit}, {}, false, session::Typing::Anew, false};
    };
    save(field, written(inARow, field->measure()));
    if (SideField* beside = missteps ? fieldAt({field->measure().missteps, place.side}) : nullptr) {
        told(m_draft.enter(beside->place(), written(*missteps, beside->measure())));
        beside->show(m_draft.stored(beside->place()), false);
        m_strip->say(tr("%1: %2 as well.").arg(beside->title()).arg(*missteps));
    }
}

void ExaminationPage::confirmConditions()
{
    told(m_draft.confirmConditions());
}

void ExaminationPage::writeAllNormal(SectionBox* box)
{
    if (m_draft.isReadOnly())
        return;
    flush();
    const auto findings = normalFindings(box->section(), *m_draft.visit());
    if (findings.empty()) {
        goToOpenOf(*box);
        return;
    }
    QStringList lines;
    for (const Finding& finding : findings) {
        const SideField* field = fieldAt({finding.measure, finding.side});
        lines += tr("%1 %2", "test: value")
                     .arg(field->title(),
                          records::written(finding.value, field->measure(), session::screenPhrases()));
    }
    told(m_session.saveFindings(*m_draft.id(), findings));
    goToOpenOf(*box);
    m_strip->say(tr("You state for %1: done and seen as expected, %2. Ctrl+Z takes all of it back.")
                     .arg(box->section().title, session::joined("%1, %2", lines)));
}

void ExaminationPage::amend()
{
    const Visit* visit = m_draft.visit();
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
