#include "app/session/importing.h"

#include "core/exchange/columns.h"
#include "core/exchange/merge.h"
#include "core/records/check.h"
#include "core/storage/audit_trail.h"
#include "core/storage/patients.h"
#include "core/storage/transaction.h"
#include "core/storage/visits.h"

namespace session
{

namespace
{

using Outcome = base::Result<void>;

const QString amendmentReason = QStringLiteral("Further findings imported");

/// One import under way.
struct Importing {
    Session& session;
    const records::Author& author;
    storage::Patients patients{session.store()};
    storage::Visits visits{session.store()};
    ImportSummary summary = {};

    Outcome noteImport(const QString& kind, const QString& record)
    {
        return storage::note(session.store(), QStringLiteral("imported"), kind, record);
    }

    Outcome finish(const records::VisitId& visit, const records::Patient& patient, bool staysDraft)
    {
        if (!staysDraft) {
            const auto stored = visits.withId(visit);
            if (!stored)
                return stored.error();
            if (const auto wrong = records::wrongWith(*stored, patient, session.catalogue(), session.today()))
                return *wrong;
            if (const auto done = visits.sign(visit, author); !done)
                return done.error();
        }
        return noteImport(QStringLiteral("visit"), visit.text);
    }

    Outcome addVisit(records::Visit visit, const records::Patient& patient)
    {
        visit.id = records::VisitId::make();
        visit.series = visit.id;
        visit.patient = patient.id;
        if (const auto added = visits.add(visit); !added)
            return added.error();
        summary.visits += 1;
        summary.findings += int(visit.findings.size());
        return finish(visit.id, patient, false);
    }

    Outcome addFurther(const exchange::FurtherFindings& further, const records::Patient& patient)
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
        return finish(place, patient, further.isDraft);
    }

    base::Result<exchange::Addition> additionOf(const exchange::ImportedPatient& imported) const
    {
        const auto stored = patients.withRecordNumber(imported.patient.recordNumber);
        if (!stored)
            return stored.error();
        std::vector<records::Visit> versions;
        if (*stored) {
            auto kept = visits.ofPatient((*stored)->id);
            if (!kept)
                return kept.error();
            versions = std::move(*kept);
        }
        return exchange::addition(imported, *stored, versions, session.catalogue());
    }

    Outcome take(const exchange::ImportedPatient& imported)
    {
        auto addition = additionOf(imported);
        if (!addition)
            return addition.error();
        if (addition->isPatientChanged) {
            if (const auto wrong =
                    records::wrongWith(addition->patient, session.catalogue(), session.today()))
                return *wrong;
            const bool isNew = addition->patient.id.isNull();
            if (isNew)
                addition->patient.id = records::PatientId::make();
            if (const auto saved = patients.save(addition->patient); !saved)
                return saved.error();
            if (auto noted = noteImport(QStringLiteral("patient"), addition->patient.id.text); !noted)
                return noted;
            summary.patients += isNew ? 1 : 0;
        }
        for (const records::Visit& visit : addition->newVisits) {
            if (auto added = addVisit(visit, addition->patient); !added)
                return added;
        }
        for (const exchange::FurtherFindings& further : addition->further) {
            if (auto added = addFurther(further, addition->patient); !added)
                return added;
        }
        return {};
    }
};

} // namespace

base::Result<ImportSummary> importPatients(Session& session,
                                           const std::vector<exchange::ImportedPatient>& patients,
                                           const records::Author& author)
{
    if (const auto wrong = records::wrongWith(author))
        return *wrong;
    Importing importing{session, author};
    const auto all = storage::together(session.store(), [&]() -> Outcome {
        std::vector<base::Error> errors;
        for (const exchange::ImportedPatient& patient : patients) {
            auto taken = importing.take(patient);
            if (!taken && taken.error().kind != base::ErrorKind::Invalid)
                return taken;
            if (!taken)
                errors.push_back(taken.error());
        }
        return errors.empty() ? Outcome() : Outcome(exchange::oneOf(errors));
    });
    if (!all)
        return all.error();
    return importing.summary;
}

} // namespace session
