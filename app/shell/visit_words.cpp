#include "app/shell/visit_words.h"

#include "core/records/wording.h"

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
             records::dayInWords(visit.withdrawn->at.toLocalTime().date()), visit.withdrawn->reason);
}

QString visitWords(const records::Visit& visit)
{
    if (visit.withdrawn)
        return VisitWords::tr("%1 · %2").arg(records::dayInWords(visit.day), inErrorWords(visit));
    const QString day = records::dayInWords(visit.day);
    const QString count = VisitWords::tr("%n finding(s)", nullptr, static_cast<int>(visit.findings.size()));
    if (visit.state == records::VisitState::Draft)
        return VisitWords::tr("%1 · %2 · %3").arg(day, stateWords(visit), count);
    return VisitWords::tr("%1 · %2 by %3, %4 · %5")
        .arg(day, stateWords(visit), visit.author.name, visit.author.role, count);
}

QString linesInWords(const session::Session& session)
{
    const records::Visit* visit = session.visitInFocus();
    if (visit == nullptr)
        return {};
    const QString day = records::dayInWords(visit->day);
    const auto& reference = session.focus().reference;
    const auto found = std::ranges::find_if(
        session.visits(), [&reference](const records::Visit& other) { return other.id == reference; });
    if (found == session.visits().end())
        return VisitWords::tr("This visit: %1, %2 · held against the last comparable visit of each test")
            .arg(day, stateWords(*visit));
    return VisitWords::tr("This visit: %1, %2 · held against %3, %4")
        .arg(day, stateWords(*visit), records::dayInWords(found->day), stateWords(*found));
}

QString editWords(const session::Edit& edit, const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(edit.measure);
    if (measure == nullptr)
        return edit.measure;
    const base::Phrasebook phrases;
    const QString side = records::written(edit.side, phrases);
    const QString name = side.isEmpty() ? measure->title : measure->title + u' ' + side;
    const QString value =
        edit.after ? records::written(edit.after->value, *measure, phrases) : VisitWords::tr("cleared");
    return VisitWords::tr("%1: %2").arg(name, value);
}

} // namespace shell
