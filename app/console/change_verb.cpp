#include "app/console/change_json.h"
#include "app/console/long_work.h"
#include "core/base/text.h"
#include "core/judging/change.h"
#include "core/records/summary.h"
#include "core/records/visit.h"
#include "core/records/wording.h"
#include "core/telling/course_words.h"
#include "core/telling/terms.h"
#include "core/telling/wording.h"

#include <QJsonDocument>
#include <QJsonObject>

namespace console
{

using namespace Qt::StringLiterals;

namespace
{

/// Columns as wide as their longest cell, two spaces between them.
QString aligned(const std::vector<QStringList>& rows)
{
    std::vector<qsizetype> widths;
    for (const QStringList& row : rows) {
        widths.resize(std::max(widths.size(), size_t(row.size())));
        for (qsizetype i = 0; i < row.size(); ++i)
            widths[size_t(i)] = std::max(widths[size_t(i)], row.at(i).size());
    }
    QString text;
    for (const QStringList& row : rows) {
        QString line;
        for (qsizetype i = 0; i < row.size(); ++i)
            line += row.at(i).leftJustified(widths[size_t(i)] + 2);
        text += line.trimmed() + u'\n';
    }
    return text;
}

/// "12.5 s", "12.5 s (draft)".
QString valueOf(const records::Occasion& occasion, const catalogue::Measure& measure,
                const base::Phrasebook& phrases)
{
    const QString written = records::written(occasion.finding.value, measure, phrases);
    return occasion.state == records::VisitState::Draft ? u"%1 (draft)"_s.arg(written) : written;
}

QStringList row(const judging::Change& change, const QString& against, const judging::Comparison& comparison,
                const catalogue::Measure& measure, const catalogue::Catalogue& catalogue,
                const base::Phrasebook& phrases)
{
    return {records::titled(measure, phrases),
            records::written(change.side, phrases),
            records::dayInWords(change.now.day, phrases),
            valueOf(change.now, measure, phrases),
            against,
            records::dayInWords(comparison.reference.day, phrases),
            valueOf(comparison.reference, measure, phrases),
            comparison.difference ? telling::signedAmount(*comparison.difference, measure, phrases)
                                  : QString(),
            telling::verdictWords(comparison, phrases),
            telling::strengthWords(comparison, change, catalogue, phrases)};
}

QString table(const Found& found, const catalogue::Catalogue& catalogue, const base::Phrasebook& phrases)
{
    std::vector<QStringList> rows = {{u"Measure"_s, u"Side"_s, u"Date"_s, u"Value"_s, u"Against"_s,
                                      u"Its date"_s, u"Its value"_s, u"Difference"_s, u"Verdict"_s,
                                      u"Strength"_s}};
    for (const judging::Change& change :
         judging::latestChanges(found.visits, found.patient, catalogue, found.judging)) {
        const catalogue::Measure* measure = catalogue.measure(change.measure);
        if (measure == nullptr)
            continue;
        if (change.previous)
            rows.push_back(row(change, u"previous"_s, *change.previous, *measure, catalogue, phrases));
        if (change.baseline)
            rows.push_back(row(change, u"baseline"_s, *change.baseline, *measure, catalogue, phrases));
    }
    return rows.size() == 1 ? u"Nothing to compare yet.\n"_s : aligned(rows);
}

/// The record numbers asked for.
base::Result<QStringList> numbers(const Request& request, const session::Session& session)
{
    if (!request.ofAll)
        return QStringList{request.patient};
    const auto patients = session.patients();
    if (!patients)
        return patients.error();
    QStringList all;
    for (const records::PatientSummary& patient : *patients) {
        if (!patient.recordNumber.isEmpty())
            all += patient.recordNumber;
    }
    return all;
}

} // namespace

base::Result<void> showChange(const Request& request)
{
    const auto session = openRecords(request);
    if (!session)
        return session.error();
    const auto wanted = numbers(request, **session);
    if (!wanted)
        return wanted.error();
    const base::Phrasebook phrases;
    QJsonArray objects;
    LongWork comparing(request, base::said("Comparing the visits"));
    size_t compared = 0;
    for (const QString& number : *wanted) {
        if (!records::goesOn(comparing.progress(), compared++, size_t(wanted->size())))
            return base::stopped();
        const auto patient = found(**session, number);
        if (!patient)
            return patient.error();
        if (!request.asJson) {
            const QString line = records::identityLine(patient->patient, (*session)->today(), phrases);
            request.out << base::withoutControls(line) << '\n' // a terminal knows no isolates
                        << table(*patient, (*session)->catalogue(), phrases) << '\n';
            continue;
        }
        for (const auto& value : changeJson(*patient, (*session)->catalogue(), phrases)) {
            QJsonObject object = value.toObject();
            if (request.ofAll)
                object[u"patient"_s] = number;
            objects += object;
        }
    }
    if (request.asJson)
        request.out << QString::fromUtf8(QJsonDocument(objects).toJson());
    return {};
}

} // namespace console
