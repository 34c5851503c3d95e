#include "app/session/taking_back.h"

#include "core/catalogue/catalogue.h"
#include "core/exchange/faults.h"
#include "core/records/check.h"
#include "core/records/letter.h"
#include "core/records/reading.h"
#include "core/storage/imports.h"
#include "core/storage/letters.h"
#include "core/storage/patients.h"
#include "core/storage/transaction.h"
#include "core/storage/visits.h"

#include <algorithm>
#include <map>

namespace session
{

namespace
{

using namespace Qt::StringLiterals;
using records::Visit;
using storage::ImportWrite;
using Kind = ImportWrite::Kind;

using Outcome = base::Result<void>;

base::Error nothingToTakeBack()
{
    return {base::ErrorKind::NotFound, base::said("There is no import that could be taken back."), {}};
}

base::Error somethingOnTop(const QString& recordNumber)
{
    return {base::ErrorKind::Refused,
            base::said("Something was signed, amended, marked or typed on top of this import, or a letter is "
                       "about it (record number %1), so nothing is taken back; mark single visits as entered "
                       "in error instead.")
                .arg(recordNumber),
            {}};
}

/// What stands beside every visit that is taken back.
QString reasonFor(const QString& file)
{
    const QString reason = u"Import of %1 taken back"_s.arg(file);
    return records::wrongWithReason(reason) ? u"Import of a file taken back"_s : reason;
}

bool isOfPatient(const ImportWrite& write)
{
    return write.kind == Kind::NewPatient || write.kind == Kind::Patient;
}

/// The patient as before their empty parts were filled in.
records::Patient emptied(records::Patient patient, const QStringList& filled)
{
    for (const QString& part : filled) {
        if (part == u"family")
            patient.family.clear();
        else if (part == u"given")
            patient.given.clear();
        else if (part == u"born")
            patient.born.reset();
        else if (part == u"sex")
            patient.sex = records::Sex::Unknown;
        else if (part == u"population")
            patient.population.clear();
    }
    return patient;
}

/// The finding as before further trials went into it.
records::Finding shortened(records::Finding finding, const storage::FindingBefore& before,
                           const catalogue::Measure& measure)
{
    finding.capReached = before.capReached;
    const int trials = before.trials.value_or(0);
    finding.value = values::Quantity{finding.trials.front(), measure.unit};
    finding.trials.resize(size_t(trials));
    if (trials > 0)
        finding.value = records::valueOfTrials(finding.trials, measure);
    return finding;
}

/// One patient with everything about them.
struct Record {
    records::Patient patient;
    std::vector<Visit> versions;
    std::vector<records::Letter> letters;

    const Visit* version(const QString& id) const
    {
        const auto found = std::ranges::find(versions, records::VisitId{id}, &Visit::id);
        return found == versions.end() ? nullptr : &*found;
    }

    const Visit* before(const Visit& amendment) const
    {
        const auto found = std::ranges::find_if(versions, [&](const Visit& other) {
            return other.series == amendment.series && other.version == amendment.version - 1;
        });
        return found == versions.end() ? nullptr : &*found;
    }

    bool isOnTop(const ImportWrite& write) const
    {
        if (write.kind == Kind::Patient)
            return patient.revision != write.revision;
        if (write.kind == Kind::NewPatient)
            return patient.revision != write.revision || !patient.choices.empty();
        const Visit* visit = version(write.record);
        if (visit == nullptr || visit->revision != write.revision || visit->withdrawn)
            return true;
        const bool isAmended = std::ranges::any_of(versions, [&](const Visit& other) {
            return other.series == visit->series && other.version > visit->version;
        });
        const bool hasLetter = std::ranges::any_of(letters, [&](const records::Letter& letter) {
            return letter.visit == visit->id || letter.reference == visit->id;
        });
        const bool isDeclared =
            std::ranges::any_of(patient.declared, [&](const records::DeclaredEqual& word) {
                return word.earlier == visit->series || word.later == visit->series;
            });
        return isAmended || hasLetter || (isDeclared && write.kind == Kind::Visit);
    }
};

/// One import that is being taken back.
struct TakingBack {
    Session& session;
    const records::Author& author;
    QString reason;
    storage::Patients patients{session.store()};
    storage::Visits visits{session.store()};
    storage::Letters letters{session.store()};
    TakenBack summary = {};

    base::Result<Record> record(const records::PatientId& id) const
    {
        auto patient = patients.withId(id);
        auto versions = visits.ofPatient(id);
        auto written = letters.ofPatient(id);
        if (!patient)
            return patient.error();
        if (!versions)
            return versions.error();
        if (!written)
            return written.error();
        return Record{std::move(*patient), std::move(*versions), std::move(*written)};
    }

    /// The writes by patient; a draft that is gone was discarded, which is something on top.
    base::Result<std::map<QString, std::vector<ImportWrite>>>
    byPatient(const std::vector<ImportWrite>& writes) const
    {
        std::map<QString, std::vector<ImportWrite>> all;
        for (const ImportWrite& write : writes) {
            if (isOfPatient(write)) {
                all[write.record].push_back(write);
                continue;
            }
            const auto visit = visits.withId({write.record});
            if (!visit)
                return visit.error();
            all[visit->patient.text].push_back(write);
        }
        return all;
    }

    Outcome bringBack(const Visit& amendment, const Visit& before)
    {
        const auto draft = visits.amend(amendment.id, reason);
        if (!draft)
            return draft.error();
        for (const records::Finding& finding : amendment.findings) {
            const records::Finding* held = before.finding(finding.measure, finding.side);
            if (held != nullptr && *held == finding)
                continue;
            auto done = held == nullptr ? visits.removeFinding(draft->id, finding.measure, finding.side)
                                        : visits.saveFinding(draft->id, *held);
            if (!done)
                return done;
        }
        const auto isSigned = visits.sign(draft->id, author);
        if (!isSigned)
            return isSigned.error();
        ++summary.amendments;
        return {};
    }

    Outcome bringBack(const Visit& draft, const std::vector<storage::FindingBefore>& before)
    {
        for (const storage::FindingBefore& held : before) {
            const records::Finding* finding = draft.finding(held.measure, held.side);
            const catalogue::Measure* measure = session.catalogue().measure(held.measure);
            if (finding == nullptr || measure == nullptr)
                continue;
            auto done = held.trials ? visits.saveFinding(draft.id, shortened(*finding, held, *measure))
                                    : visits.removeFinding(draft.id, held.measure, held.side);
            if (!done)
                return done;
        }
        ++summary.drafts;
        return {};
    }

    Outcome takeBack(const ImportWrite& write, const Record& record)
    {
        if (write.kind == Kind::NewPatient) {
            ++summary.patients;
            return {};
        }
        if (write.kind == Kind::Patient) {
            const auto saved = patients.save(emptied(record.patient, write.filled));
            return saved ? Outcome() : Outcome(saved.error());
        }
        const Visit& visit = *record.version(write.record);
        if (write.kind == Kind::Draft)
            return bringBack(visit, write.before);
        if (write.kind == Kind::Amendment)
            return bringBack(visit, *record.before(visit));
        const auto withdrawn = visits.withdraw(visit.id, reason, author);
        if (!withdrawn)
            return withdrawn.error();
        ++summary.withdrawn;
        return {};
    }

    Outcome takeBackOf(const QString& patient, const std::vector<ImportWrite>& writes)
    {
        const auto record = this->record({patient});
        if (!record)
            return record.error();
        for (const ImportWrite& write : writes) {
            if (record->isOnTop(write))
                return somethingOnTop(record->patient.recordNumber);
        }
        const bool isNew = std::ranges::find(writes, Kind::NewPatient, &ImportWrite::kind) != writes.end();
        const bool hasOther = std::ranges::any_of(record->versions, [&](const Visit& version) {
            return std::ranges::find(writes, version.id.text, &ImportWrite::record) == writes.end();
        });
        if (isNew && hasOther)
            return somethingOnTop(record->patient.recordNumber);
        for (const ImportWrite& write : writes) {
            if (auto done = takeBack(write, *record); !done)
                return done;
        }
        return {};
    }
};

} // namespace

base::Result<std::optional<LastImport>> lastImport(Session& session)
{
    const auto last = storage::Imports(session.store()).last();
    if (!last)
        return last.error();
    if (!*last)
        return std::optional<LastImport>();
    const auto visits =
        std::ranges::count_if((*last)->writes, [](const ImportWrite& write) { return !isOfPatient(write); });
    return std::optional(LastImport{(*last)->file, (*last)->at, qsizetype(visits)});
}

base::Result<TakenBack> takeBackImport(Session& session, const records::Author& author,
                                       const records::Progress& progress)
{
    if (const auto wrong = records::wrongWith(author))
        return *wrong;
    TakenBack summary;
    const auto done = storage::together(session.store(), [&]() -> Outcome {
        storage::Imports imports(session.store());
        const auto last = imports.last();
        if (!last)
            return last.error();
        if (!*last)
            return nothingToTakeBack();
        TakingBack takingBack{session, author, reasonFor((*last)->file)};
        const auto all = takingBack.byPatient((*last)->writes);
        if (!all)
            return all.error();
        size_t taken = 0;
        for (const auto& [patient, writes] : *all) {
            if (!records::goesOn(progress, taken++, all->size()))
                return base::stopped();
            if (auto back = takingBack.takeBackOf(patient, writes); !back)
                return back;
        }
        summary = takingBack.summary;
        return imports.markTakenBack((*last)->number);
    });
    if (!done)
        return done.error();
    if (auto read = session.readAgain(); !read)
        return read.error();
    return summary;
}

} // namespace session
