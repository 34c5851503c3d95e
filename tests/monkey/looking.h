#pragma once

#include "app/reading/red_flag_row.h"
#include "app/reading/red_flags_page.h"
#include "app/visits/side_field.h"
#include "app/visits/typed.h"
#include "app/widgets/key_row.h"
#include "app/widgets/number_field.h"
#include "core/base/text.h"
#include "core/records/wording.h"
#include "core/storage/soundness.h"
#include "core/storage/visits.h"
#include "tests/monkey/clinic.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>

/// What must hold after any sequence: the records are sound, the session knows what is stored, and the form
/// shows it.
namespace monkey
{

/// What a field shows, as it would have to be stored; empty where it says itself that something is not saved.
inline std::optional<QString> shownIn(const visits::SideField& field)
{
    const auto* message = field.findChild<QLabel*>(field.place().name() + u".message"_s);
    if (message != nullptr && message->property("role").toString() == u"danger"_s)
        return std::nullopt;
    if (const auto* keys = dynamic_cast<const widgets::KeyRow*>(field.firstEditor())) {
        const auto chosen = keys->chosen();
        return chosen ? u"key %1"_s.arg(*chosen) : QString();
    }
    QStringList texts;
    for (const auto* trial : field.findChildren<widgets::NumberField*>()) {
        if (const QString text = base::tidied(trial->text()).replace(u',', u'.'); !text.isEmpty())
            texts += text;
    }
    return texts.join(u' ');
}

/// The finding as its field would have to show it.
inline QString storedFor(const visits::SideField& field, const records::Finding* stored)
{
    if (stored == nullptr)
        return {};
    const catalogue::Measure& measure = field.measure();
    if (const auto* grade = std::get_if<values::Grade>(&stored->value))
        return u"key %1"_s.arg(grade->step - int(measure.lowest.value_or(0)));
    if (const auto* choice = std::get_if<values::Choice>(&stored->value)) {
        const auto found = std::ranges::find(measure.options, choice->key, &catalogue::Option::key);
        return u"key %1"_s.arg(found - measure.options.begin());
    }
    std::vector<double> numbers = stored->trials;
    if (const auto number = values::number(stored->value); numbers.empty() && number)
        numbers.push_back(*number);
    QStringList texts;
    for (const double number : numbers)
        texts += records::writtenTrial(number, measure);
    return texts.join(u' ');
}

/// Whether two rows of numbers say the same: "4.50" is "4.5".
inline bool isSame(const QString& shown, const QString& stored)
{
    const QStringList a = shown.split(u' ', Qt::SkipEmptyParts);
    const QStringList b = stored.split(u' ', Qt::SkipEmptyParts);
    return shown == stored || std::ranges::equal(a, b, [](const QString& one, const QString& other) {
               bool isNumber = false;
               const double number = one.toDouble(&isNumber);
               return isNumber && number == other.toDouble();
           });
}

inline QStringList faultsOfForm(const Clinic& clinic, const records::Visit& stored)
{
    QStringList faults;
    const auto* page = clinic.window->findChild<QWidget*>(u"examination"_s);
    const auto* note = page->findChild<QLineEdit*>(u"strip.note"_s);
    for (const auto* field : page->findChildren<visits::SideField*>()) {
        const visits::Place& place = field->place();
        const records::Finding* finding = stored.finding(place.measure, place.side);
        const auto& believed = field->shown();
        if (finding == nullptr ? believed.has_value() : believed != *finding)
            faults += u"The field %1 believes that something else is stored."_s.arg(place.name());
        const auto shown = shownIn(*field);
        if (shown && !isSame(*shown, storedFor(*field, finding)))
            faults += u"The field %1 shows “%2”, stored is “%3”."_s.arg(place.name(), *shown,
                                                                        storedFor(*field, finding));
        const bool isNoted = note->isVisible() && note->accessibleName() == u"%1: note"_s.arg(field->title());
        const QString kept = finding == nullptr ? QString() : finding->note;
        if (isNoted && !field->isBesideRefused() && base::tidied(note->text()) != kept)
            faults += u"The note of %1 shows “%2”, stored is “%3”."_s.arg(place.name(), note->text(), kept);
    }
    return faults;
}

/// What the questions about red flags show, where they are in front. What is typed and not stored says so.
inline QStringList faultsOfFlags(const Clinic& clinic, const records::Visit& stored)
{
    QStringList faults;
    const auto* page = clinic.window->findChild<reading::RedFlagsPage*>(u"redFlags"_s);
    if (page == nullptr || !page->isVisible())
        return faults;
    const QStringList unsaved = page->unsaved();
    for (const auto* row : page->findChildren<reading::RedFlagRow*>()) {
        const auto found = stored.redFlags.find(row->flag());
        const bool isAsked = found != stored.redFlags.end();
        const auto* keys = row->findChild<widgets::KeyRow*>(u"redFlag."_s + row->flag());
        if (keys->chosen() != (isAsked ? std::optional(found->second.isYes ? 0 : 1) : std::nullopt))
            faults += u"The red flag %1 shows another answer than is stored."_s.arg(row->flag());
        const QString kept =
            isAsked && found->second.acknowledged ? found->second.acknowledged->action : QString();
        if (unsaved.isEmpty() && isAsked && found->second.isYes && row->typed().action.trimmed() != kept)
            faults +=
                u"The red flag %1 shows “%2”, stored is “%3”."_s.arg(row->flag(), row->typed().action, kept);
    }
    return faults;
}

/// As it can be compared: the session adds what is new at the end, and counts no revisions.
inline std::vector<records::Visit> inOrder(std::vector<records::Visit> visits)
{
    for (records::Visit& visit : visits) {
        visit.revision = 0;
        std::ranges::sort(visit.findings, {}, [](const records::Finding& finding) {
            return std::pair(finding.measure, finding.side);
        });
    }
    return visits;
}

/// In sentences; none where all is well.
inline QStringList faultsOf(Clinic& clinic)
{
    session::Session& session = *clinic.session;
    QStringList faults;
    if (const auto unsound = storage::faults(session.store(), session.catalogue(), session.today()))
        faults += *unsound;
    else
        faults += unsound.error().what.english();
    const auto patient = session.focus().patient;
    if (!patient)
        return faults;
    const auto stored = storage::Visits(session.store()).ofPatient(*patient);
    if (!stored)
        return faults += stored.error().what.english();
    if (inOrder(*stored) != inOrder(session.versions()))
        faults += u"The session does not know what is stored."_s;
    if (const records::Visit* visit = session.visitInFocus()) {
        const auto found = std::ranges::find(*stored, visit->id, &records::Visit::id);
        if (found == stored->end())
            faults += u"The visit in focus is not stored."_s;
        else
            faults += faultsOfForm(clinic, *found) + faultsOfFlags(clinic, *found);
    }
    return faults;
}

} // namespace monkey
