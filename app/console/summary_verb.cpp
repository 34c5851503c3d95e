#include "app/console/request.h"
#include "core/base/text.h"
#include "core/records/visit.h"
#include "core/storage/targets.h"
#include "core/telling/summary.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

QJsonObject object(const telling::SummaryLine& line)
{
    return {{u"kind"_s, telling::code(line.kind)},
            {u"text"_s, u"%1: %2"_s.arg(line.label, line.text)},
            {u"measures"_s, QJsonArray::fromStringList(line.measures)},
            {u"since"_s, dayOrNull(line.since)}};
}

} // namespace

base::Result<void> sayInShort(const Request& request)
{
    const auto session = openRecords(request);
    if (!session)
        return session.error();
    const auto patient = found(**session, request.patient);
    if (!patient)
        return patient.error();
    const catalogue::Catalogue& catalogue = (*session)->catalogue();
    const base::Phrasebook phrases;
    const auto targets = storage::Targets((*session)->store()).ofPatient(patient->patient.id);
    if (!targets)
        return targets.error();
    const judging::Ground ground{patient->visits, patient->patient, catalogue, patient->judging};
    std::optional<judging::Glance> glance;
    if (!patient->visits.empty())
        glance = judging::glanceAt(patient->visits.back().id, {}, ground);
    const auto lines = glance ? telling::summary(*glance, catalogue, phrases,
                                                 judging::targetsAt(*targets, ground, (*session)->today()))
                              : std::vector<telling::SummaryLine>();
    if (request.asJson) {
        QJsonArray objects;
        for (const telling::SummaryLine& line : lines)
            objects += object(line);
        const QJsonObject whole{{u"patient"_s, request.patient},
                                {u"visit"_s, dayOrNull(glance ? std::optional(glance->day) : std::nullopt)},
                                {u"lines"_s, objects}};
        request.out << QString::fromUtf8(QJsonDocument(whole).toJson());
        return {};
    }
    const QString identity = records::identityLine(patient->patient, (*session)->today(), phrases);
    request.out << base::withoutControls(identity) << '\n';
    for (const telling::SummaryLine& line : lines)
        request.out << u"%1: %2\n"_s.arg(line.label, line.text);
    if (lines.empty())
        request.out << u"Nothing recorded yet.\n"_s;
    return {};
}

} // namespace console
