#include "app/session/messages.h"
#include "app/session/session.h"
#include "core/records/check.h"
#include "core/records/wording.h"
#include "core/storage/store.h"
#include "core/storage/visits.h"
#include "core/telling/condition_words.h"
#include "core/telling/red_flag_words.h"

#include <algorithm>

namespace session
{

namespace
{

using records::Finding;
using records::Visit;

constexpr int mostLines = 6;

QString wordsOf(const Finding* finding, const catalogue::Measure* measure)
{
    if (finding == nullptr)
        return Session::tr("nothing");
    QStringList words;
    if (measure != nullptr)
        words += records::written(finding->value, *measure, screenPhrases());
    words += finding->signs;
    if (!finding->note.isEmpty())
        words += Session::tr("note “%1”").arg(finding->note);
    return joined("%1, %2", words);
}

/// How the stored draft differs from the one shown, a line for each finding and condition.
QStringList differences(const Visit& shown, const Visit& stored, const catalogue::Catalogue& catalogue)
{
    QStringList lines;
    const auto add = [&](const QString& title, const QString& onScreen, const QString& inFile) {
        lines += Session::tr("%1: shown %2; stored %3").arg(title, onScreen, inFile);
    };
    std::vector<std::pair<QString, records::Side>> places;
    for (const Visit* visit : {&shown, &stored}) {
        for (const Finding& finding : visit->findings) {
            if (std::ranges::find(places, std::pair(finding.measure, finding.side)) == places.end())
                places.emplace_back(finding.measure, finding.side);
        }
    }
    for (const auto& [id, side] : places) {
        const Finding* onScreen = shown.finding(id, side);
        const Finding* inFile = stored.finding(id, side);
        if (onScreen != nullptr && inFile != nullptr && *onScreen == *inFile)
            continue;
        const catalogue::Measure* measure = catalogue.measure(id);
        const QString title = measure == nullptr ? id : measure->title;
        add(records::sidedTitle(title, side, screenPhrases()), wordsOf(onScreen, measure),
            wordsOf(inFile, measure));
    }
    QStringList conditions = shown.conditions.keys() + stored.conditions.keys();
    conditions.removeDuplicates();
    for (const QString& id : std::as_const(conditions)) {
        const QString onScreen = records::recorded(shown.conditions, id);
        const QString inFile = records::recorded(stored.conditions, id);
        const catalogue::Condition* condition = catalogue.condition(id);
        if (onScreen != inFile)
            add(condition == nullptr ? id : condition->title,
                telling::conditionValue(onScreen, condition, screenPhrases()),
                telling::conditionValue(inFile, condition, screenPhrases()));
    }
    for (const catalogue::RedFlag& flag : catalogue.redFlags) {
        const auto* onScreen = telling::answerOf(shown.redFlags, flag.id);
        const auto* inFile = telling::answerOf(stored.redFlags, flag.id);
        const QString words = telling::answered(onScreen, screenPhrases());
        const QString storedWords = telling::answered(inFile, screenPhrases());
        if (words != storedWords)
            add(flag.question, words, storedWords);
    }
    if (shown.day != stored.day)
        add(Session::tr("Day of the visit"), dayInWords(shown.day), dayInWords(stored.day));
    if (shown.state != stored.state)
        add(Session::tr("State of the visit"), records::code(shown.state), records::code(stored.state));
    return lines;
}

} // namespace

base::Result<Visit> Session::signVisit(const records::VisitId& visit, const records::Author& author)
{
    if (const auto wrong = records::wrongWith(author))
        return *wrong;
    if (auto allowed = refuseWrong(visit); !allowed)
        return allowed.error();
    storage::Visits drafts(*m_store);
    const auto stored = drafts.withId(visit);
    if (!stored)
        return stored.error();
    if (const auto wrong = records::wrongWithSigning(*stored))
        return *wrong;
    const auto shown = std::ranges::find(visits(), visit, &Visit::id);
    QStringList lines = shown == visits().end() ? QStringList() : differences(*shown, *stored, *m_catalogue);
    if (!lines.isEmpty()) {
        if (lines.size() > mostLines)
            lines = lines.mid(0, mostLines) + QStringList{QStringLiteral("…")};
        forgetEdits();
        if (auto taken = takeVisits(visit); !taken)
            return taken.error();
        Q_EMIT visitChanged(fact(stored->patient), visit);
        return base::Error{
            base::ErrorKind::Conflict,
            base::verbatim(tr("Not signed: the draft was changed elsewhere, so the stored one is "
                              "not the one shown. The stored one is shown now; look it over and "
                              "sign again.") +
                           QStringLiteral("\n\n") + lines.join(u'\n')),
            {}};
    }
    auto signedVisit = drafts.sign(visit, author, stored->revision);
    if (!signedVisit)
        return signedVisit;
    m_store->settle();
    if (!m_isPersonKnown)
        setPerson(author);
    forgetEdits();
    if (auto taken = takeVisits(signedVisit->id); !taken)
        return taken.error();
    return signedVisit;
}

} // namespace session
