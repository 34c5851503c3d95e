#include "core/storage/soundness.h"

#include "core/records/check.h"
#include "core/records/texts.h"
#include "core/storage/clinic_catalogues.h"
#include "core/storage/happenings.h"
#include "core/storage/letters.h"
#include "core/storage/patients.h"
#include "core/storage/query.h"
#include "core/storage/targets.h"
#include "core/storage/transaction.h"
#include "core/storage/visits.h"

#include <QJsonDocument>
#include <QJsonObject>

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

void addWrong(QStringList& faults, const QString& record, const std::optional<base::Error>& wrong)
{
    if (wrong)
        faults += u"%1: %2"_s.arg(record, wrong->what.english());
}

void addVisitFaults(QStringList& faults, const records::Visit& visit, const records::Patient& patient,
                    const catalogue::Catalogue& catalogue, QDate today)
{
    for (const base::Error& wrong : records::everythingWrongWith(visit, patient, catalogue, today))
        addWrong(faults, u"Visit %1"_s.arg(visit.id.text), wrong);
}

void addPatientFaults(QStringList& faults, const records::Patient& patient,
                      const catalogue::Catalogue& catalogue, QDate today)
{
    const QString record = u"Patient %1"_s.arg(patient.id.text);
    addWrong(faults, record, records::wrongWith(patient, catalogue, today));
    for (const records::EvidenceChoice& choice : patient.choices)
        addWrong(faults, record, records::wrongWithReason(choice.reason));
    for (const records::DeclaredEqual& word : patient.declared)
        addWrong(faults, record, records::wrongWithReason(word.reason));
}

base::Result<void> addLetterFaults(QStringList& faults, Store& store, const records::PatientId& patient)
{
    const auto letters = Letters(store).ofPatient(patient);
    if (!letters)
        return letters.error();
    for (const records::Letter& letter : *letters)
        addWrong(faults, u"Letter %1"_s.arg(letter.id.text), records::wrongWith(letter));
    return {};
}

/// Of events and targets those that count: what a birth date or a measure changed since makes wrong of them
/// is mended by a further version, and the earlier ones stay as they are.
base::Result<void> addHappeningFaults(QStringList& faults, Store& store, const records::Patient& patient,
                                      const catalogue::Catalogue& catalogue, QDate today)
{
    const auto happenings = Happenings(store).ofPatient(patient.id);
    if (!happenings)
        return happenings.error();
    for (const records::Happening& each : records::current(*happenings))
        addWrong(faults, u"Event %1"_s.arg(each.id.text), records::wrongWith(each, patient, today));
    const auto targets = Targets(store).ofPatient(patient.id);
    if (!targets)
        return targets.error();
    for (const records::Target& target : records::newest(*targets)) {
        if (target.droppedFor.isEmpty())
            addWrong(faults, u"Patient %1"_s.arg(patient.id.text),
                     records::wrongWith(target, patient, catalogue, today));
    }
    return {};
}

/// What the clinic says of itself and adds to the catalogue.
base::Result<void> addClinicFaults(QStringList& faults, Store& store)
{
    const auto clinic = store.clinic();
    if (!clinic)
        return clinic.error();
    addWrong(faults, u"The clinic"_s, records::wrongWith(*clinic));
    for (const records::PopulationChoice& each : clinic->judging.choices)
        addWrong(faults, u"The clinic"_s, records::wrongWithReason(each.choice.reason));
    const auto own = ClinicCatalogues(store).newest();
    if (!own)
        return own.error();
    if (*own)
        addWrong(faults, u"The clinic's own catalogue"_s,
                 records::wrongWithTexts(QJsonDocument::fromJson((*own)->document).object()));
    return {};
}

/// Rules that hold between rows; each query answers with the ids of the records that break one.
base::Result<void> addBrokenRules(QStringList& faults, const Store& store)
{
    struct Rule {
        QString broken;
        QString sentence;
    };
    const std::vector<Rule> rules = {
        {uR"(SELECT later.id FROM visits later
             JOIN visits earlier ON earlier.series = later.series AND earlier.version < later.version
             WHERE earlier.state = 'draft' OR earlier.patient <> later.patient)"_s,
         u"Visit %1: It amends a visit that is a draft or another patient's."_s},
        {uR"(SELECT letters.id FROM letters JOIN visits ON visits.id = letters.visit
             WHERE visits.patient <> letters.patient)"_s,
         u"Letter %1: Its visit is another patient's."_s},
        {uR"(SELECT letters.id FROM letters JOIN visits ON visits.id = letters.visit
             WHERE letters.state = 'signed' AND visits.state = 'draft')"_s,
         u"Letter %1: It is signed, and its visit is not."_s},
        {uR"(SELECT firsts.id FROM visit_withdrawals JOIN visits firsts ON firsts.key = visit_withdrawals.series
             WHERE reason = '' OR visit_withdrawals.author_name = '' OR withdrawn_at = ''
                OR EXISTS (SELECT 1 FROM visits WHERE visits.series = visit_withdrawals.series
                           AND visits.state = 'draft'))"_s,
         u"Visit %1: It is entered in error without a reason, an author or an instant, or while a draft."_s},
        {uR"(SELECT firsts.id FROM visit_withdrawals JOIN visits firsts ON firsts.key = visit_withdrawals.series
             WHERE NOT EXISTS (SELECT 1 FROM audit_trail
                               JOIN audit_records ON audit_records.key = audit_trail.record
                               JOIN visits ON visits.id = audit_records.record
                               WHERE visits.series = visit_withdrawals.series
                                 AND audit_trail.action = 'withdrawn'))"_s,
         u"Visit %1: It is entered in error, but the audit trail does not say so."_s},
        {uR"(SELECT visits.id FROM audit_trail
             JOIN audit_records ON audit_records.key = audit_trail.record
             JOIN visits ON visits.id = audit_records.record
             WHERE audit_trail.action = 'withdrawn' AND NOT EXISTS (
                 SELECT 1 FROM visit_withdrawals WHERE visit_withdrawals.series = visits.series))"_s,
         u"Visit %1: The audit trail says that it was entered in error, the visit does not."_s},
        {uR"(SELECT declared_equal.patient FROM declared_equal
             JOIN visits ON visits.id IN (declared_equal.earlier, declared_equal.later)
             WHERE visits.patient <> declared_equal.patient)"_s,
         u"Patient %1: Results are declared comparable with a visit of another patient."_s},
        {uR"(SELECT DISTINCT later.id FROM happenings later
             LEFT JOIN happenings earlier ON earlier.id = later.id AND earlier.version = later.version - 1
             WHERE later.version > 1 AND (earlier.id IS NULL OR earlier.patient <> later.patient
                                          OR earlier.taken_back_for <> ''))"_s,
         u"Event %1: A version follows none, another patient's or one that was taken back."_s},
        {u"SELECT COUNT(*) FROM audit_trail HAVING COUNT(*) <> COALESCE(MAX(number), 0)"_s,
         u"The audit trail: Entries are missing; %1 are left."_s},
    };
    for (const Rule& rule : rules) {
        auto found = read(store, rule.broken, {}, [&](Row& row) -> base::Result<void> {
            faults += rule.sentence.arg(row.text());
            return {};
        });
        if (!found)
            return found;
    }
    return {};
}

} // namespace

base::Result<QStringList> faults(Store& store, const catalogue::Catalogue& catalogue, QDate today,
                                 const records::Progress& progress)
{
    const Transaction transaction(store, Transaction::Kind::Reads);
    if (!transaction.begun())
        return transaction.begun().error();
    constexpr int shareOfFile = 30;
    auto faults = store.fileFaults(records::share(progress, 0, shareOfFile));
    if (!faults || !faults->isEmpty())
        return faults; // what lies in broken pages cannot be judged
    if (auto added = addBrokenRules(*faults, store); !added)
        return added.error();

    if (auto added = addClinicFaults(*faults, store); !added)
        return added.error();
    const Patients patients(store);
    const Visits visits(store);
    const auto summaries = patients.all();
    if (!summaries)
        return summaries.error();
    const auto went = records::share(progress, shareOfFile, 100);
    size_t done = 0;
    for (const records::PatientSummary& summary : *summaries) {
        if (!records::goesOn(went, done++, summaries->size()))
            return base::stopped();
        const auto patient = patients.withId(summary.id);
        if (!patient)
            return patient.error();
        addPatientFaults(*faults, *patient, catalogue, today);
        if (auto added = addLetterFaults(*faults, store, summary.id); !added)
            return added.error();
        if (auto added = addHappeningFaults(*faults, store, *patient, catalogue, today); !added)
            return added.error();
        const auto versions = visits.ofPatient(summary.id);
        if (!versions)
            return versions.error();
        for (const records::Visit& visit : *versions)
            addVisitFaults(*faults, visit, *patient, catalogue, today);
    }
    return faults;
}

} // namespace storage
