#include "core/exchange/preview.h"

#include <algorithm>

namespace exchange
{

namespace
{

int firstLine(const ImportedVisit& visit)
{
    int first = visit.origins.front().places.front().number;
    for (const Origin& origin : visit.origins) {
        for (const Place& place : origin.places)
            first = std::min(first, place.number);
    }
    return first;
}

VisitPreview previewOf(const ImportedVisit& visit, Becomes becomes, const Addition& addition)
{
    VisitPreview preview;
    preview.line = firstLine(visit);
    preview.patient = addition.patient.recordNumber;
    preview.day = visit.visit.day;
    preview.becomes = becomes;
    if (becomes == Becomes::New)
        preview.newFindings = qsizetype(visit.visit.findings.size());
    std::ranges::copy_if(addition.further, std::back_inserter(preview.further),
                         [&](const FurtherFindings& further) { return further.day == preview.day; });
    return preview;
}

} // namespace

void add(Plan& plan, const ImportedPatient& imported, const std::optional<records::Patient>& stored,
         const std::vector<records::Visit>& versions, const catalogue::Catalogue& catalogue, QDate today)
{
    Preview& all = plan.preview;
    Addition added = addition(imported, stored, versions, catalogue, today, all.faults);
    bool isFirst = true;
    for (size_t i = 0; i < imported.visits.size(); ++i) {
        if (added.becomes[i] == Becomes::Refused)
            continue;
        VisitPreview visit = previewOf(imported.visits[i], added.becomes[i], added);
        visit.isPatientNew = isFirst && !stored;
        visit.isPatientChanged = isFirst && stored && added.isPatientChanged;
        isFirst = false;
        all.newPatients += visit.isPatientNew ? 1 : 0;
        all.newVisits += visit.becomes == Becomes::New ? 1 : 0;
        all.changedVisits += qsizetype(visit.further.size());
        all.changesPatients = all.changesPatients || added.isPatientChanged;
        all.visits.push_back(std::move(visit));
    }
    plan.additions.push_back(std::move(added));
}

void add(Plan& plan, const ReadRecord& read, const std::optional<records::WholeRecord>& stored,
         bool isNumberTaken)
{
    Preview& all = plan.preview;
    const qint64 before = all.faults.count();
    WholeAddition addition = wholeAddition(read, stored, isNumberTaken, all.faults);
    all.isOfWholeRecords = true;
    if (all.faults.count() != before)
        return;
    all.newPatients += addition.isPatientNew ? 1 : 0;
    all.changesPatients = all.changesPatients || addition.entries > 0 || addition.isPatientNew;
    bool isFirst = true;
    for (const records::Visit& visit : read.record.visits) {
        if (visit.id != visit.series)
            continue;
        const auto added = std::ranges::find(addition.added.visits, visit.id, &records::Visit::id);
        const bool isNew = added != addition.added.visits.end();
        const bool isFurther = std::ranges::find(addition.added.visits, visit.series,
                                                 &records::Visit::series) != addition.added.visits.end();
        VisitPreview preview;
        preview.line = read.lines.value(visit.id.text);
        preview.patient = read.record.patient.recordNumber;
        preview.day = visit.day;
        preview.becomes = isNew ? Becomes::New : isFurther ? Becomes::Changed : Becomes::AsRecorded;
        preview.isPatientNew = isFirst && addition.isPatientNew;
        preview.newFindings = isNew ? qsizetype(visit.findings.size()) : 0;
        isFirst = false;
        all.newVisits += isNew ? 1 : 0;
        all.changedVisits += !isNew && isFurther ? 1 : 0;
        all.visits.push_back(std::move(preview));
    }
    plan.records.push_back(std::move(addition));
}

} // namespace exchange
