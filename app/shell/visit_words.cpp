#include "app/shell/visit_words.h"

#include "app/patients/detail_words.h"
#include "app/session/messages.h"
#include "app/visits/conditions_editor.h"
#include "core/records/normal.h"
#include "core/records/visit.h"
#include "core/records/wording.h"
#include "core/telling/condition_words.h"
#include "core/telling/red_flag_words.h"

#include <QCoreApplication>

#include <algorithm>

namespace shell
{

namespace
{

struct VisitWords {
    Q_DECLARE_TR_FUNCTIONS(Words)
};

} // namespace

QString stateWords(const records::Visit& visit)
{
    if (visit.withdrawn)
        return VisitWords::tr("entered in error");
    switch (visit.state) {
    case records::VisitState::Draft:
        return visit.version > 1 ? VisitWords::tr("amendment in draft") : VisitWords::tr("draft");
    case records::VisitState::Signed:
        return VisitWords::tr("signed");
    case records::VisitState::Amended:
        return VisitWords::tr("amended");
    }
    return {};
}

QString inErrorWords(const records::Visit& visit)
{
    if (!visit.withdrawn)
        return {};
    return VisitWords::tr("Entered in error, said by %1 on %2: “%3”")
        .arg(records::inWords(visit.withdrawn->author),
             session::dayInWords(visit.withdrawn->at.toLocalTime().date()), visit.withdrawn->reason);
}

QString visitWords(const records::Visit& visit)
{
    if (visit.withdrawn)
        return VisitWords::tr("%1 · %2").arg(session::dayInWords(visit.day), inErrorWords(visit));
    const QString day = session::dayInWords(visit.day);
    const QString count = VisitWords::tr("%n finding(s)", nullptr, static_cast<int>(visit.findings.size()));
    if (visit.state == records::VisitState::Draft)
        return VisitWords::tr("%1 · %2 · %3").arg(day, stateWords(visit), count);
    return VisitWords::tr("%1 · %2 by %3, %4 · %5")
        .arg(day, stateWords(visit), visit.author.name, visit.author.role, count);
}

QString linesInWords(const session::Session& session, const QString& comparedWith)
{
    const records::Visit* visit = session.visitInFocus();
    if (visit == nullptr)
        return {};
    const QString day = session::dayInWords(visit->day);
    if (visit->withdrawn)
        return VisitWords::tr("This visit: %1, %2").arg(day, stateWords(*visit));
    if (!comparedWith.isEmpty())
        return VisitWords::tr("This visit: %1, %2 · compared with: %3")
            .arg(day, stateWords(*visit), comparedWith);
    const auto& reference = session.focus().reference;
    const auto found = std::ranges::find_if(
        session.visits(), [&reference](const records::Visit& other) { return other.id == reference; });
    if (found == session.visits().end())
        return VisitWords::tr("This visit: %1, %2 · no reference visit chosen").arg(day, stateWords(*visit));
    return VisitWords::tr("This visit: %1, %2 · held against %3, %4")
        .arg(day, stateWords(*visit), session::dayInWords(found->day), stateWords(*found));
}

namespace
{

QString nameOf(const session::Edit& edit, const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(edit.measure);
    if (measure == nullptr)
        return edit.measure;
    const QString side = records::written(edit.side, session::screenPhrases());
    return side.isEmpty() ? measure->title : VisitWords::tr("%1 %2", "test, side").arg(measure->title, side);
}

bool isAsExpected(const session::Edit& edit, const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(edit.measure);
    return measure != nullptr && edit.after && edit.after->value == records::normalValue(*measure);
}

/// The conditions that the edit changed: "Walking aid: stick".
QString conditionWords(const session::Edit& edit, const catalogue::Catalogue& catalogue)
{
    const session::VisitConditions before = edit.conditionsBefore.value_or(session::VisitConditions{});
    QStringList changed;
    for (const catalogue::Condition& condition : catalogue.conditions) {
        const QString value = records::recorded(edit.conditionsAfter->values, condition.id);
        if (records::recorded(before.values, condition.id) != value)
            changed += VisitWords::tr("%1: %2").arg(
                condition.title, telling::conditionValue(value, &condition, session::screenPhrases()));
    }
    return changed.isEmpty() ? VisitWords::tr("conditions confirmed") : session::joined("%1, %2", changed);
}

/// The answers about red flags that the edit changed: "fainting: yes".
QString flagWords(const session::Edit& edit, const catalogue::Catalogue& catalogue)
{
    const records::RedFlags before = edit.flagsBefore.value_or(records::RedFlags());
    QStringList changed;
    for (const catalogue::RedFlag& flag : catalogue.redFlags) {
        const auto* was = telling::answerOf(before, flag.id);
        const auto* is = telling::answerOf(*edit.flagsAfter, flag.id);
        const bool isSame = was == nullptr || is == nullptr ? was == is : *was == *is;
        if (!isSame)
            changed +=
                VisitWords::tr("%1: %2").arg(flag.inShort, telling::answered(is, session::screenPhrases()));
    }
    return changed.size() > 2 ? VisitWords::tr("%n red flag(s)", nullptr, int(changed.size()))
                              : session::joined("%1, %2", changed);
}

/// What the edit did: to the value, or to what stands beside it.
QString changeWords(const session::Edit& edit, const catalogue::Measure& measure)
{
    if (!edit.after)
        return VisitWords::tr("cleared");
    const records::Finding before = edit.before.value_or(records::Finding());
    if (before.value != edit.after->value || before.trials != edit.after->trials)
        return records::written(edit.after->value, measure, session::screenPhrases());
    if (before.note != edit.after->note)
        return VisitWords::tr("note");
    if (before.signs != edit.after->signs)
        return VisitWords::tr("signs");
    if (before.exceptions != edit.after->exceptions)
        return VisitWords::tr("own conditions");
    return records::written(edit.after->value, measure, session::screenPhrases());
}

} // namespace

QString editWords(const std::vector<session::Edit>& edits, const catalogue::Catalogue& catalogue)
{
    if (edits.empty())
        return {};
    const session::Edit& edit = edits.front();
    if (edits.size() > 1 &&
        std::ranges::all_of(edits, [&](const session::Edit& each) { return isAsExpected(each, catalogue); }))
        return VisitWords::tr("%n finding(s) done and as expected: %1 to %2", nullptr, int(edits.size()))
            .arg(nameOf(edit, catalogue), nameOf(edits.back(), catalogue));
    if (edits.size() > 1)
        return VisitWords::tr("%n finding(s): %1 to %2", nullptr, int(edits.size()))
            .arg(nameOf(edit, catalogue), nameOf(edits.back(), catalogue));
    if (edit.patientAfter)
        return patients::detailWords(*edit.patientBefore, *edit.patientAfter);
    if (edit.flagsAfter)
        return flagWords(edit, catalogue);
    if (edit.conditionsAfter)
        return conditionWords(edit, catalogue);
    const catalogue::Measure* measure = catalogue.measure(edit.measure);
    return measure == nullptr
               ? edit.measure
               : VisitWords::tr("%1: %2").arg(nameOf(edit, catalogue), changeWords(edit, *measure));
}

} // namespace shell
