#include "app/session/patient_record.h"
#include "app/session/session.h"
#include "core/catalogue/catalogue.h"
#include "core/records/check.h"
#include "core/storage/patients.h"
#include "core/storage/visits.h"

#include <algorithm>

namespace session
{

namespace
{

std::optional<records::Finding> findingIn(const std::vector<records::Visit>& visits,
                                          const records::VisitId& id, const QString& measure,
                                          records::Side side)
{
    for (const records::Visit& visit : visits) {
        const records::Finding* found = visit.id == id ? visit.finding(measure, side) : nullptr;
        if (found != nullptr)
            return *found;
    }
    return std::nullopt;
}

} // namespace

/// Stores one side of an edit and reads what the file then holds.
base::Result<void> Session::store(const Edit& edit, const std::optional<records::Finding>& finding,
                                  const std::optional<VisitConditions>& conditions,
                                  const std::optional<records::RedFlags>& flags)
{
    storage::Visits visits(*m_store);
    base::Result<void> saved;
    if (flags) {
        const auto kept = std::ranges::find(versions(), edit.visit, &records::Visit::id);
        const QDate day = kept == versions().end() ? QDate() : kept->day;
        if (const auto wrong = records::wrongWith(*flags, day, *m_catalogue, today()))
            return *wrong;
        saved = visits.saveRedFlags(edit.visit, *flags);
    } else if (conditions) {
        if (const auto wrong = records::wrongWith(conditions->values, *m_catalogue))
            return *wrong;
        saved = visits.saveConditions(edit.visit, conditions->values, conditions->areConfirmed);
    } else if (finding) {
        if (auto allowed = refuseWrong(edit.visit, *finding); !allowed)
            return allowed;
        saved = visits.saveFinding(edit.visit, *finding);
    } else {
        saved = visits.removeFinding(edit.visit, edit.measure, edit.side);
    }
    if (!saved)
        return saved;
    if (auto read = conditions || flags
                        ? m_record->readVisit(*m_store, edit.visit)
                        : m_record->readFinding(*m_store, edit.visit, edit.measure, edit.side);
        !read)
        return read;
    Q_EMIT visitChanged(fact(m_record->patient().id), edit.visit);
    return {};
}

base::Result<void> Session::refuseWrong(const records::VisitId& id, const records::Finding& finding) const
{
    const auto refusal = [&](const records::Visit& visit) -> base::Result<void> {
        const auto wrong = records::wrongWith(visit, finding, *m_catalogue);
        return wrong ? base::Result<void>(*wrong) : base::Result<void>();
    };
    const auto known = std::ranges::find(versions(), id, &records::Visit::id);
    if (known != versions().end())
        return refusal(*known);
    const auto stored = storage::Visits(*m_store).withId(id);
    return stored ? refusal(*stored) : stored.error();
}

base::Result<void> Session::edit(const Edit& edit, Typing typing)
{
    if (edit.before == edit.after)
        return {};
    if (auto stored = store(edit, edit.after, {}, {}); !stored)
        return stored;
    m_undo.remember(edit, typing);
    Q_EMIT editsChanged();
    return {};
}

base::Result<void> Session::saveConditions(const records::VisitId& visit,
                                           const records::Conditions& conditions, bool confirmed,
                                           Typing typing)
{
    const auto kept = std::ranges::find(visits(), visit, &records::Visit::id);
    const VisitConditions after{conditions, confirmed};
    std::optional<VisitConditions> before;
    if (kept != visits().end())
        before = VisitConditions{kept->conditions, kept->conditionsConfirmed};
    if (before == after)
        return {};
    const Edit edit{visit, {}, {}, {}, {}, 0, before, after};
    if (auto stored = store(edit, {}, after, {}); !stored)
        return stored;
    if (before) {
        m_undo.remember(edit, typing);
        Q_EMIT editsChanged();
    }
    return {};
}

base::Result<void> Session::saveRedFlags(const records::VisitId& visit, const records::RedFlags& flags,
                                         Typing typing)
{
    const auto kept = std::ranges::find(visits(), visit, &records::Visit::id);
    if (kept != visits().end() && kept->redFlags == flags)
        return {};
    Edit edit;
    edit.visit = visit;
    edit.flagsAfter = flags;
    edit.flagsBefore = kept == visits().end() ? records::RedFlags() : kept->redFlags;
    if (auto stored = store(edit, {}, {}, flags); !stored)
        return stored;
    m_undo.remember(edit, typing);
    Q_EMIT editsChanged();
    return {};
}

base::Result<void> Session::saveFinding(const records::VisitId& visit, const records::Finding& finding,
                                        Typing typing)
{
    return edit({visit, finding.measure, finding.side,
                 findingIn(visits(), visit, finding.measure, finding.side), finding},
                typing);
}

base::Result<void> Session::saveFindings(const records::VisitId& visit,
                                         const std::vector<records::Finding>& findings)
{
    const int group = m_undo.newGroup();
    for (const records::Finding& finding : findings) {
        const auto before = findingIn(visits(), visit, finding.measure, finding.side);
        if (auto saved = edit({visit, finding.measure, finding.side, before, finding, group}, Typing::Anew);
            !saved)
            return saved;
    }
    return {};
}

base::Result<void> Session::removeFinding(const records::VisitId& visit, const QString& measure,
                                          records::Side side, Typing typing)
{
    return edit({visit, measure, side, findingIn(visits(), visit, measure, side), std::nullopt}, typing);
}

/// What was changed since by another hand is not overwritten.
base::Result<void> Session::exchangePatient(const records::Patient& from, const records::Patient& to)
{
    const auto now = patient(to.id);
    if (!now)
        return now.error();
    const auto asNow = [&](records::Patient details) {
        details.revision = now->revision;
        details.choices = now->choices;
        details.declared = now->declared;
        return details;
    };
    if (asNow(from) != *now)
        return base::Error{
            base::ErrorKind::Conflict,
            base::said("The details of this patient were changed since, so nothing was taken back."),
            {}};
    const auto written = writePatient(asNow(to));
    return written ? base::Result<void>() : written.error();
}

base::Result<void> Session::undo()
{
    std::vector<Edit> edits = m_undo.last();
    std::ranges::reverse(edits); // the newest first
    for (const Edit& edit : edits) {
        const auto stored = edit.patientAfter
                                ? exchangePatient(*edit.patientAfter, *edit.patientBefore)
                                : store(edit, edit.before, edit.conditionsBefore, edit.flagsBefore);
        if (!stored)
            return stored;
        m_undo.takenBack();
        Q_EMIT editsChanged();
    }
    return {};
}

base::Result<void> Session::redo()
{
    for (const Edit& edit : m_undo.lastUndone()) {
        const auto stored = edit.patientAfter
                                ? exchangePatient(*edit.patientBefore, *edit.patientAfter)
                                : store(edit, edit.after, edit.conditionsAfter, edit.flagsAfter);
        if (!stored)
            return stored;
        m_undo.madeAgain();
        Q_EMIT editsChanged();
    }
    return {};
}

} // namespace session
