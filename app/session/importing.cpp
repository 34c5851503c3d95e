#include "app/session/importing.h"

#include "core/base/text.h"
#include "core/catalogue/own.h"
#include "core/exchange/findings_csv.h"
#include "core/fhir/reading.h"
#include "core/records/check.h"
#include "core/storage/audit_trail.h"
#include "core/storage/imports.h"
#include "core/storage/patients.h"
#include "core/storage/transaction.h"
#include "core/storage/visits.h"
#include "core/storage/whole_records.h"

namespace session
{

namespace
{

using namespace Qt::StringLiterals;
using storage::ImportWrite;

using Outcome = base::Result<void>;

const QString amendmentReason = u"Further findings imported"_s;

/// What the file knew of the patient and the records did not.
QStringList filledIn(const records::Patient& before, const records::Patient& after)
{
    QStringList filled;
    const std::pair<bool, QString> parts[] = {{before.family != after.family, u"family"_s},
                                              {before.given != after.given, u"given"_s},
                                              {before.born != after.born, u"born"_s},
                                              {before.sex != after.sex, u"sex"_s},
                                              {before.population != after.population, u"population"_s}};
    for (const auto& [isFilled, part] : parts) {
        if (isFilled)
            filled += part;
    }
    return filled;
}

storage::FindingBefore beforeOf(const records::Finding& finding,
                                const std::optional<records::Finding>& before)
{
    storage::FindingBefore known{finding.measure, finding.side, {}, false};
    if (before) {
        known.trials = int(before->trials.size());
        known.capReached = before->capReached;
    }
    return known;
}

/// Whole records set against what the records hold.
Outcome planRecords(Session& session, const exchange::FindingsFile& file, const records::Progress& progress,
                    exchange::Plan& plan)
{
    const storage::Patients patients(session.store());
    size_t done = 0;
    for (const exchange::ReadRecord& read : file.records) {
        if (!records::goesOn(progress, done++, file.records.size()))
            return base::stopped();
        const records::Patient& patient = read.record.patient;
        const auto stored = storage::wholeRecord(session.store(), patient.id);
        const auto namesake = patients.withRecordNumber(patient.recordNumber);
        if (!stored || !namesake)
            return stored ? namesake.error() : stored.error();
        exchange::add(plan, read, *stored, *namesake && (*namesake)->id != patient.id);
    }
    return {};
}

base::Result<exchange::Plan> planned(Session& session, const exchange::FindingsFile& file,
                                     const records::Progress& progress)
{
    const storage::Transaction transaction(session.store(), storage::Transaction::Kind::Reads);
    if (!transaction.begun())
        return transaction.begun().error();
    const storage::Patients patients(session.store());
    const storage::Visits visits(session.store());
    const storage::Imports imports(session.store());
    exchange::Plan plan;
    plan.preview.faults = file.faults;
    plan.preview.leftOut = file.leftOut;
    if (auto records = planRecords(session, file, progress, plan); !records)
        return records.error();
    if (file.own && catalogue::written(*file.own) != catalogue::written(session.own())) {
        plan.own = file.own;
        plan.preview.changesPatients = true;
    }
    for (const exchange::ImportedPatient& imported : file.patients) {
        if (!records::goesOn(progress, plan.additions.size(), file.patients.size()))
            return base::stopped();
        const auto stored = patients.withRecordNumber(imported.patient.recordNumber);
        if (!stored)
            return stored.error();
        std::vector<records::Visit> versions;
        if (*stored) {
            auto kept = visits.ofPatient((*stored)->id);
            const auto takenBack = imports.takenBackVisits((*stored)->id);
            if (!kept || !takenBack)
                return kept ? takenBack.error() : kept.error();
            versions = std::move(*kept);
            // What was taken back with its import is not an error that a file must not bring back.
            std::erase_if(versions, [&](const records::Visit& version) {
                return version.withdrawn && takenBack->contains(version.series.text);
            });
        }
        exchange::add(plan, imported, *stored, versions, session.catalogue(), session.today());
    }
    return plan;
}

/// One import under way.
struct Importing {
    Session& session;
    const records::Author& author;
    storage::Patients patients{session.store()};
    storage::Visits visits{session.store()};
    ImportSummary summary = {};
    std::vector<ImportWrite> writes = {};

    Outcome wrote(const ImportWrite& write)
    {
        const bool isOfPatient =
            write.kind == ImportWrite::Kind::NewPatient || write.kind == ImportWrite::Kind::Patient;
        writes.push_back(write);
        return storage::note(session.store(), u"imported"_s, isOfPatient ? u"patient"_s : u"visit"_s,
                             write.record);
    }

    Outcome signVisit(const records::VisitId& visit, ImportWrite::Kind kind)
    {
        const auto done = visits.sign(visit, author);
        return done ? wrote({kind, visit.text, done->revision}) : Outcome(done.error());
    }

    Outcome addVisit(records::Visit visit, const records::Patient& patient)
    {
        visit.id = records::VisitId::make();
        visit.series = visit.id;
        visit.patient = patient.id;
        visit.state = records::VisitState::Signed;
        visit.author = author;
        visit.signedAt = session.now();
        const auto brought = visits.bring(visit);
        if (!brought)
            return brought.error();
        summary.visits += 1;
        summary.findings += int(visit.findings.size());
        writes.push_back({ImportWrite::Kind::Visit, visit.id.text, *brought});
        return storage::note(session.store(), {u"created"_s, u"signed"_s, u"imported"_s}, u"visit"_s,
                             visit.id.text);
    }

    Outcome addFurther(const exchange::FurtherFindings& further)
    {
        records::VisitId place = further.visit;
        if (!further.isDraft) {
            const auto amendment = visits.amend(further.visit, amendmentReason);
            if (!amendment)
                return amendment.error();
            place = amendment->id;
            summary.amendments += 1;
        }
        for (const records::Finding& finding : further.findings) {
            if (auto saved = visits.saveFinding(place, finding); !saved)
                return saved;
            summary.findings += 1;
        }
        return further.isDraft ? wroteInto(place, further) : signVisit(place, ImportWrite::Kind::Amendment);
    }

    Outcome wroteInto(const records::VisitId& draft, const exchange::FurtherFindings& further)
    {
        const auto stored = visits.withId(draft);
        if (!stored)
            return stored.error();
        ImportWrite write{ImportWrite::Kind::Draft, draft.text, stored->revision};
        for (size_t i = 0; i < further.findings.size(); ++i)
            write.before.push_back(beforeOf(further.findings[i], further.before[i]));
        return wrote(write);
    }

    Outcome savePatient(records::Patient& patient)
    {
        const bool isNew = patient.id.isNull();
        ImportWrite write{isNew ? ImportWrite::Kind::NewPatient : ImportWrite::Kind::Patient, {}, 0};
        if (isNew) {
            patient.id = records::PatientId::make();
        } else {
            const auto before = patients.withId(patient.id);
            if (!before)
                return before.error();
            write.filled = filledIn(*before, patient);
        }
        const auto saved = patients.save(patient);
        if (!saved)
            return saved.error();
        summary.patients += isNew ? 1 : 0;
        write.record = patient.id.text;
        write.revision = saved->revision;
        return wrote(write);
    }

    Outcome take(const exchange::WholeAddition& addition)
    {
        if (addition.isNothing())
            return {};
        auto brought =
            storage::bringRecord(session.store(), addition.added, addition.isPatientNew, addition.withdrawn);
        summary.patients += addition.isPatientNew ? 1 : 0;
        summary.entries += addition.entries;
        for (const records::Visit& visit : addition.added.visits) {
            (visit.version == 1 ? summary.visits : summary.amendments) += 1;
            summary.findings += int(visit.findings.size());
        }
        return brought;
    }

    Outcome take(exchange::Addition& addition)
    {
        if (addition.isPatientChanged) {
            if (auto saved = savePatient(addition.patient); !saved)
                return saved;
        }
        for (const records::Visit& visit : addition.newVisits) {
            if (auto added = addVisit(visit, addition.patient); !added)
                return added;
        }
        for (const exchange::FurtherFindings& further : addition.further) {
            if (auto added = addFurther(further); !added)
                return added;
        }
        return {};
    }
};

} // namespace

records::Author importingAuthor(const QString& name)
{
    return {name, u"imported from file"_s, {}};
}

base::Result<exchange::Plan> plannedImport(Session& session, const exchange::FindingsFile& file,
                                           const records::Progress& progress)
{
    return planned(session, file, progress);
}

base::Result<exchange::FindingsFile> findingsFile(const Session& session, const QByteArray& bytes,
                                                  const records::Progress& progress)
{
    const exchange::OwnPart own{&session.released(), &session.own()};
    return fhir::isJson(bytes)
               ? fhir::bundleFrom(bytes, session.catalogue(), session.today(), progress, own)
               : exchange::findingsFrom(bytes, session.catalogue(), session.today(), progress, own);
}

base::Result<ImportSummary> importPatients(Session& session,
                                           const std::vector<exchange::ImportedPatient>& patients,
                                           const records::Author& author, const QString& file,
                                           const records::Progress& progress)
{
    return importFile(session, {patients, {}}, author, file, progress);
}

base::Result<ImportSummary> importFile(Session& session, const exchange::FindingsFile& read,
                                       const records::Author& author, const QString& file,
                                       const records::Progress& progress)
{
    if (const auto wrong = records::wrongWith(author))
        return *wrong;
    constexpr int shareOfPlan = 30;
    Importing importing{session, author};
    const auto all = storage::together(session.store(), [&]() -> Outcome {
        auto plan = planned(session, read, records::share(progress, 0, shareOfPlan));
        if (!plan)
            return plan.error();
        if (!plan->preview.faults.isNone())
            return plan->preview.faults.asOne();
        const records::Progress taking = records::share(progress, shareOfPlan, 100);
        const size_t pieces = plan->additions.size() + plan->records.size();
        size_t done = 0;
        for (const exchange::WholeAddition& addition : plan->records) {
            if (!records::goesOn(taking, done++, pieces))
                return base::stopped();
            if (auto taken = importing.take(addition); !taken)
                return taken;
        }
        for (exchange::Addition& addition : plan->additions) {
            if (!records::goesOn(taking, done++, pieces))
                return base::stopped();
            if (auto taken = importing.take(addition); !taken)
                return taken;
        }
        if (plan->own) { // last, since the session takes it at once
            importing.summary.isOwnNew = true;
            if (auto kept = session.saveOwn(*plan->own); !kept)
                return kept;
        }
        return base::tidied(file).isEmpty() || importing.writes.empty()
                   ? Outcome()
                   : storage::Imports(session.store()).add(file, importing.writes);
    });
    if (!all)
        return all.error();
    if (auto again = session.readAgain(); !again)
        return again.error();
    return importing.summary;
}

} // namespace session
