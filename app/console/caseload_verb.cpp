#include "app/console/long_work.h"
#include "core/judging/case_order.h"
#include "core/records/review.h"
#include "core/records/wording.h"
#include "core/storage/cases.h"
#include "core/telling/case_words.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

QJsonValue strongestOf(const std::optional<judging::Strongest>& strongest)
{
    if (!strongest)
        return {};
    return QJsonObject{{u"measure"_s, strongest->measure},
                       {u"side"_s, records::code(strongest->side)},
                       {u"verdict"_s, judging::code(strongest->kind)},
                       {u"strength"_s, judging::code(strongest->strength)},
                       {u"since"_s, strongest->since.toString(Qt::ISODate)}};
}

QJsonObject object(const judging::Case& each, const std::optional<QDate>& due)
{
    const judging::CaseSummary& summary = *each.summary;
    return {{u"patient"_s, each.recordNumber},
            {u"lastVisit"_s, dayOrNull(each.lastSeen)},
            {u"due"_s, dayOrNull(due)},
            {u"strongest"_s, strongestOf(summary.strongest)},
            {u"flags"_s, summary.flags},
            {u"expectedFalseFlags"_s, summary.expectedFalse},
            {u"asOf"_s, each.workedOutAt.toString(Qt::ISODate)}};
}

} // namespace

base::Result<void> listCases(const Request& request)
{
    const auto opened = openRecords(request);
    if (!opened)
        return opened.error();
    session::Session& session = **opened;
    auto cases = session.cases();
    if (!cases)
        return cases.error();
    const storage::Cases storedCases(session.store());
    LongWork working(request, base::said("Working out the caseload"));
    size_t worked = 0;
    for (judging::Case& each : *cases) {
        if (!records::goesOn(working.progress(), worked++, cases->size()))
            return base::stopped();
        if (each.summary)
            continue;
        const auto done = storedCases.workOut(each.patient, session.catalogue(), session.clinic().judging);
        if (!done)
            return done.error();
        each.summary = done->summary;
        each.workedOutAt = session.now();
    }
    const base::Phrasebook phrases;
    QJsonArray objects;
    for (const size_t place : judging::caseOrder(*cases).places) {
        const judging::Case& each = (*cases)[place];
        const auto due = each.lastSeen ? records::dueOn(session.clinic().reviews, each.form, each.population,
                                                        *each.lastSeen, session.catalogue())
                                       : std::nullopt;
        if (request.asJson)
            objects += object(each, due);
        else
            request.out << telling::caseLine(each, due, session.catalogue(), phrases) << '\n';
    }
    if (request.asJson)
        request.out << QString::fromUtf8(QJsonDocument(objects).toJson());
    else if (cases->empty())
        request.out << u"No patients yet.\n"_s;
    return {};
}

} // namespace console
