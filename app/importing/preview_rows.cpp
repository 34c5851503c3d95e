#include "app/importing/preview_rows.h"

#include "app/session/messages.h"
#include "core/records/wording.h"

#include <QCoreApplication>

#include <algorithm>

using namespace Qt::StringLiterals;

namespace importing
{

namespace
{

using exchange::Becomes;

struct PreviewWords {
    Q_DECLARE_TR_FUNCTIONS(importing::PreviewWords)
};

QString titleOf(const records::Finding& finding, const catalogue::Catalogue& catalogue)
{
    const catalogue::Measure* measure = catalogue.measure(finding.measure);
    return records::sidedTitle(measure == nullptr ? finding.measure : measure->title, finding.side,
                               session::screenPhrases());
}

QString furtherWords(const exchange::FurtherFindings& further, const catalogue::Catalogue& catalogue)
{
    QStringList added, extended;
    for (size_t i = 0; i < further.findings.size(); ++i)
        (further.before[i] ? extended : added) += titleOf(further.findings[i], catalogue);
    QStringList words;
    if (!added.isEmpty())
        words += PreviewWords::tr("new: %1").arg(session::joined("%1, %2", added));
    if (!extended.isEmpty())
        words += PreviewWords::tr("further trials: %1").arg(session::joined("%1, %2", extended));
    const QString what = session::joined("%1; %2", words);
    return further.isDraft ? PreviewWords::tr("Goes into the draft (%1)").arg(what)
                           : PreviewWords::tr("Amends the signed visit (%1)").arg(what);
}

QString whatOf(const exchange::VisitPreview& visit, const catalogue::Catalogue& catalogue)
{
    QStringList words;
    if (visit.isPatientNew)
        words += PreviewWords::tr("New patient");
    if (visit.isPatientChanged)
        words += PreviewWords::tr("More is known of who the patient is");
    if (visit.becomes == Becomes::New)
        words += PreviewWords::tr("New visit with %n finding(s)", nullptr, int(visit.newFindings));
    for (const exchange::FurtherFindings& further : visit.further)
        words += furtherWords(further, catalogue);
    if (visit.becomes == Becomes::Changed && visit.further.empty())
        words += PreviewWords::tr("A further version of the visit");
    if (visit.becomes == Becomes::AsRecorded)
        words += PreviewWords::tr("As the records hold it");
    if (visit.becomes == Becomes::InError)
        words += PreviewWords::tr("Was entered in error and is not brought back");
    return session::joined("%1; %2", words);
}

/// "Left out: Observation 8302-2 (3)"
QString leftOutWords(const exchange::LeftOut& left)
{
    const QString what = left.code.isEmpty() ? left.type : left.type + u' ' + left.code;
    const QString words =
        PreviewWords::tr("Left out: %1 (%2)", "Observation 8302-2 (3)").arg(what).arg(left.count);
    return left.why == base::Message()
               ? words
               : session::joined("%1; %2", {words, session::sentence({{}, left.why, {}})});
}

} // namespace

std::vector<PreviewRow> previewRows(const exchange::Preview& preview, const catalogue::Catalogue& catalogue)
{
    std::vector<PreviewRow> rows;
    for (const exchange::VisitPreview& visit : preview.visits) {
        const bool isChange = visit.isPatientChanged && visit.becomes == Becomes::AsRecorded;
        rows.push_back({isChange ? Becomes::Changed : visit.becomes, visit.line, visit.patient, visit.day,
                        whatOf(visit, catalogue), QString()});
    }
    for (const exchange::Fault& fault : preview.faults.byLine())
        rows.push_back({Becomes::Refused, fault.line, fault.patient, fault.day, PreviewWords::tr("Refused"),
                        session::sentence(fault.error)});
    std::ranges::stable_sort(rows, {}, &PreviewRow::line);
    for (const exchange::LeftOut& left : preview.leftOut)
        rows.push_back({Becomes::LeftOut, 0, {}, {}, leftOutWords(left), QString()});
    return rows;
}

QString headline(const exchange::Preview& preview)
{
    QStringList parts;
    const QString patients = PreviewWords::tr("%n patient(s)", nullptr, int(preview.newPatients));
    const QString visits = PreviewWords::tr("%n visit(s)", nullptr, int(preview.newVisits));
    if (preview.newPatients > 0)
        parts += PreviewWords::tr("%1 and %2 are new").arg(patients, visits);
    else if (preview.newVisits > 0)
        parts += PreviewWords::tr("%n visit(s) are new", nullptr, int(preview.newVisits));
    if (preview.changedVisits > 0)
        parts += PreviewWords::tr("%n visit(s) change", nullptr, int(preview.changedVisits));
    if (!preview.faults.isNone())
        parts += preview.faults.isOfEntries()
                     ? PreviewWords::tr("%n fault(s) refuse the bundle", nullptr, int(preview.faults.count()))
                     : PreviewWords::tr("%n line(s) are refused", nullptr, int(preview.faults.count()));
    int left = 0;
    for (const exchange::LeftOut& kind : preview.leftOut)
        left += kind.count;
    if (left > 0)
        parts += PreviewWords::tr("%n resource(s) are left out", nullptr, left);
    if (parts.isEmpty())
        return preview.isNothingNew()
                   ? PreviewWords::tr("Nothing is new; the records hold all of it already.")
               : preview.isOfWholeRecords
                   ? PreviewWords::tr(
                         "No visit is new or changes; events, targets or other entries are added.")
                   : PreviewWords::tr("More is known of who patients are; no visit is new or changes.");
    return PreviewWords::tr("%1.", "a whole sentence").arg(session::joined("%1, %2", parts));
}

QString hindrance(const exchange::Preview& preview)
{
    if (!preview.faults.isNone() && preview.faults.isOfEntries())
        return PreviewWords::tr("A bundle is taken whole or not at all: what is refused is mended where it "
                                "was written, and the bundle read again.");
    if (!preview.faults.isNone())
        return PreviewWords::tr("A file is taken whole or not at all: mend the lines that are refused, and "
                                "read it again.");
    if (preview.isOfWholeRecords && !preview.isNothingNew())
        return PreviewWords::tr(
            "These are whole records, with who signed them and when. Once taken they cannot "
            "be taken back as an import; look at the numbers first.");
    return QString();
}

} // namespace importing
