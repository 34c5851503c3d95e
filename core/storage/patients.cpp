#include "core/storage/patients.h"

#include "core/base/text.h"
#include "core/records/visit.h"
#include "core/storage/audit_trail.h"
#include "core/storage/query.h"
#include "core/storage/transaction.h"
#include "core/storage/visit_reading.h"

using namespace Qt::StringLiterals;

namespace storage
{

namespace
{

using base::Error;
using base::ErrorKind;
using records::Patient;
using records::PatientId;

records::Patient patientFrom(Row& row)
{
    Patient patient;
    patient.id = row.key<Patient>();
    patient.revision = row.whole();
    patient.recordNumber = row.text();
    patient.family = row.text();
    patient.given = row.text();
    patient.born = row.dayIfAny();
    patient.sex = records::sexFromCode(row.text()).value_or(records::Sex::Unknown);
    patient.dominantHand = records::handFromCode(row.text()).value_or(records::Hand::Unknown);
    patient.heightCm = row.numberIfAny();
    patient.weightKg = row.numberIfAny();
    patient.diagnosis = row.text();
    patient.population = row.text();
    patient.onset = row.dayIfAny();
    patient.referrer = row.text();
    patient.generalPractitioner = row.text();
    patient.allergies = row.text();
    patient.notes = row.text();
    return patient;
}

base::Result<void> addChoices(const Store& store, Patient& patient)
{
    const QString sql = uR"(
        SELECT measure, threshold, reason, who, chosen_at FROM evidence_choices
        WHERE patient = :patient ORDER BY number)"_s;
    return read(store, sql, {{":patient", key(patient.id)}}, [&](Row& row) -> base::Result<void> {
        patient.choices.push_back({row.text(), row.text(), row.text(), row.text(), row.instant()});
        return {};
    });
}

base::Result<void> addDeclared(const Store& store, Patient& patient)
{
    const QString sql = uR"(
        SELECT measure, earlier, later, taken_back, reason, who, declared_at FROM declared_equal
        WHERE patient = :patient ORDER BY number)"_s;
    return read(store, sql, {{":patient", key(patient.id)}}, [&](Row& row) -> base::Result<void> {
        patient.declared.push_back({row.text(), row.key<records::Visit>(), row.key<records::Visit>(),
                                    row.flag(), row.text(), row.text(), row.instant()});
        return {};
    });
}

base::Result<std::optional<Patient>> onePatient(const Store& store, const QString& condition,
                                                const Binding& binding)
{
    std::optional<Patient> patient;
    const QString sql = uR"(
        SELECT id, revision, record_number, family, given, born, sex, dominant_hand, height_cm, weight_kg,
               diagnosis, population, onset, referrer, general_practitioner, allergies, notes
        FROM patients WHERE %1)"_s;
    auto found = read(store, sql.arg(condition), {binding}, [&](Row& row) -> base::Result<void> {
        patient = patientFrom(row);
        return {};
    });
    if (!found)
        return found.error();
    if (patient) {
        if (auto added = addChoices(store, *patient); !added)
            return added.error();
        if (auto added = addDeclared(store, *patient); !added)
            return added.error();
    }
    return patient;
}

std::vector<Binding> bindingsOf(const Patient& patient)
{
    return {{":id", key(patient.id)},
            {":revision", patient.revision},
            {":record_number", text(patient.recordNumber)},
            {":family", text(patient.family)},
            {":given", text(patient.given)},
            {":born", day(patient.born)},
            {":sex", code(patient.sex)},
            {":dominant_hand", code(patient.dominantHand)},
            {":height_cm", number(patient.heightCm)},
            {":weight_kg", number(patient.weightKg)},
            {":diagnosis", text(patient.diagnosis)},
            {":population", text(patient.population)},
            {":onset", day(patient.onset)},
            {":referrer", text(patient.referrer)},
            {":general_practitioner", text(patient.generalPractitioner)},
            {":allergies", text(patient.allergies)},
            {":notes", text(patient.notes)}};
}

base::Result<int> insert(const Store& store, const Patient& patient)
{
    const QString sql = uR"(
        INSERT INTO patients (id, revision, record_number, family, given, born, sex, dominant_hand, height_cm,
            weight_kg, diagnosis, population, onset, referrer, general_practitioner, allergies, notes)
        VALUES (:id, :revision + 1, :record_number, :family, :given, :born, :sex, :dominant_hand, :height_cm,
            :weight_kg, :diagnosis, :population, :onset, :referrer, :general_practitioner, :allergies, :notes))"_s;
    return write(store, sql, bindingsOf(patient));
}

base::Result<int> update(const Store& store, const Patient& patient)
{
    const QString sql = uR"(
        UPDATE patients
        SET revision = revision + 1, record_number = :record_number, family = :family, given = :given,
            born = :born, sex = :sex, dominant_hand = :dominant_hand, height_cm = :height_cm,
            weight_kg = :weight_kg, diagnosis = :diagnosis, population = :population, onset = :onset,
            referrer = :referrer, general_practitioner = :general_practitioner, allergies = :allergies,
            notes = :notes
        WHERE id = :id AND revision = :revision)"_s;
    return write(store, sql, bindingsOf(patient));
}

/// Both visits must be the patient's own, and two.
base::Result<void> refuseStrangeVisits(const Store& store, const PatientId& patient,
                                       const records::DeclaredEqual& word)
{
    int visits = 0;
    const QString sql = uR"(
        SELECT COUNT(*) FROM visits
        WHERE patient = :patient AND version = 1 AND id IN (:earlier, :later))"_s;
    auto counted =
        read(store, sql,
             {{":patient", key(patient)}, {":earlier", key(word.earlier)}, {":later", key(word.later)}},
             [&](Row& row) -> base::Result<void> {
                 visits = row.whole();
                 return {};
             });
    if (!counted)
        return counted;
    if (visits != 2)
        return Error{ErrorKind::NotFound, base::said("A declaration needs two visits of this patient."), {}};
    return {};
}

base::Result<void> refuseUnstorable(const Patient& patient)
{
    if (!isStorable(patient.heightCm) || !isStorable(patient.weightKg))
        return Error{ErrorKind::Invalid, base::said("Height and weight must be numbers."), {}};
    if ((patient.born && !patient.born->isValid()) || (patient.onset && !patient.onset->isValid()))
        return Error{
            ErrorKind::Invalid, base::said("The birth and onset dates must be days of the calendar."), {}};
    return {};
}

} // namespace

base::Result<Patient> Patients::save(const Patient& given)
{
    if (auto storable = refuseUnstorable(given); !storable)
        return storable.error();
    Patient patient = given;
    const bool isNew = patient.revision == 0;
    if (isNew && patient.id.isNull())
        patient.id = PatientId::make();

    return together(m_store, [&]() -> base::Result<Patient> {
        const auto namesake = withRecordNumber(patient.recordNumber);
        if (!namesake)
            return namesake.error();
        if (*namesake && (*namesake)->id != patient.id)
            return Error{
                ErrorKind::Invalid, base::said("This record number belongs to another patient."), {}};
        const auto touched = isNew ? insert(m_store, patient) : update(m_store, patient);
        if (!touched)
            return touched.error();
        if (*touched == 0) {
            if (auto there = withId(patient.id); !there)
                return there;
            return Error{ErrorKind::Conflict,
                         base::said("Someone else has changed this patient since; nothing was saved."),
                         {}};
        }
        if (auto noted = note(m_store, isNew ? u"created"_s : u"changed"_s, u"patient"_s, patient.id.text);
            !noted)
            return noted.error();
        return withId(patient.id);
    });
}

base::Result<void> Patients::chooseEvidence(const PatientId& patient, const records::EvidenceChoice& choice)
{
    if (base::tidied(choice.reason).isEmpty())
        return Error{ErrorKind::Refused, base::said("A choice of evidence needs a reason."), {}};
    return together(m_store, [&]() -> base::Result<void> {
        if (auto there = withId(patient); !there)
            return there.error();
        records::EvidenceChoice logged = choice;
        logged.who = m_store.access().who;
        logged.chosenAt = m_store.access().now();
        if (auto chosen = bring(patient, logged); !chosen)
            return chosen;
        return note(m_store, u"changed"_s, u"patient"_s, patient.text);
    });
}

base::Result<void> Patients::declareEqual(const PatientId& patient, const records::DeclaredEqual& word)
{
    if (base::tidied(word.reason).isEmpty())
        return Error{ErrorKind::Refused, base::said("A declaration needs a reason."), {}};
    return together(m_store, [&]() -> base::Result<void> {
        if (auto there = withId(patient); !there)
            return there.error();
        if (auto own = refuseStrangeVisits(m_store, patient, word); !own)
            return own;
        records::DeclaredEqual logged = word;
        logged.who = m_store.access().who;
        logged.declaredAt = m_store.access().now();
        if (auto declared = bring(patient, logged); !declared)
            return declared;
        return note(m_store, u"changed"_s, u"patient"_s, patient.text);
    });
}

base::Result<void> Patients::bring(const PatientId& patient, const records::EvidenceChoice& choice)
{
    const QString sql = uR"(
        INSERT INTO evidence_choices (patient, number, measure, threshold, reason, who, chosen_at)
        SELECT :patient, COALESCE(MAX(number), 0) + 1, :measure, :threshold, :reason, :who, :at
        FROM evidence_choices WHERE patient = :owner)"_s;
    auto chosen = write(m_store, sql,
                        {{":patient", key(patient)},
                         {":measure", text(choice.measure)},
                         {":threshold", text(choice.threshold)},
                         {":reason", text(choice.reason)},
                         {":who", text(choice.who)},
                         {":at", instant(choice.chosenAt)},
                         {":owner", key(patient)}});
    return chosen ? base::Result<void>() : base::Result<void>(chosen.error());
}

base::Result<void> Patients::bring(const PatientId& patient, const records::DeclaredEqual& word)
{
    const QString sql = uR"(
        INSERT INTO declared_equal (patient, number, measure, earlier, later, taken_back, reason, who,
            declared_at)
        SELECT :patient, COALESCE(MAX(number), 0) + 1, :measure, :earlier, :later, :taken_back, :reason,
            :who, :at
        FROM declared_equal WHERE patient = :owner)"_s;
    auto declared = write(m_store, sql,
                          {{":patient", key(patient)},
                           {":measure", text(word.measure)},
                           {":earlier", key(word.earlier)},
                           {":later", key(word.later)},
                           {":taken_back", flag(word.isTakenBack)},
                           {":reason", text(word.reason)},
                           {":who", text(word.who)},
                           {":at", instant(word.declaredAt)},
                           {":owner", key(patient)}});
    return declared ? base::Result<void>() : base::Result<void>(declared.error());
}

base::Result<QStringList> Patients::chosenThresholds() const
{
    QStringList ids;
    auto found = read(m_store, uR"(SELECT threshold FROM evidence_choices WHERE threshold <> ''
            UNION SELECT threshold FROM clinic_choices WHERE threshold <> '')"_s,
                      {}, [&](Row& row) -> base::Result<void> {
                          ids += row.text();
                          return {};
                      });
    if (!found)
        return found.error();
    return ids;
}

base::Result<Patient> Patients::withId(const PatientId& id) const
{
    const auto patient = onePatient(m_store, u"id = :id"_s, {":id", key(id)});
    if (!patient)
        return patient.error();
    if (!*patient)
        return Error{ErrorKind::NotFound, base::said("This patient is not in the records."), {}};
    return **patient;
}

base::Result<std::optional<Patient>> Patients::withRecordNumber(const QString& number) const
{
    return onePatient(m_store, u"record_number = :number AND record_number <> ''"_s,
                      {":number", text(number)});
}

base::Result<std::vector<records::PatientSummary>> Patients::all() const
{
    const QString sql = uR"(
        WITH counted AS (
            SELECT patient, MAX(day) AS last_day, COUNT(*) AS visits FROM visits WHERE %1 GROUP BY patient),
        drafts AS (SELECT DISTINCT patient FROM visits WHERE state = 'draft')
        SELECT patients.id, family, given, record_number, born, diagnosis, last_day,
               COALESCE(counted.visits, 0), CASE WHEN drafts.patient IS NULL THEN 0 ELSE 1 END
        FROM patients
        LEFT JOIN counted ON counted.patient = patients.id
        LEFT JOIN drafts ON drafts.patient = patients.id)"_s.arg(thatCounts(Drafts::OnlyFirst));
    std::vector<records::PatientSummary> patients;
    auto found = read(m_store, sql, {}, [&](Row& row) -> base::Result<void> {
        patients.push_back({row.key<Patient>(), row.text(), row.text(), row.text(), row.dayIfAny(),
                            row.text(), row.dayIfAny(), row.whole(), row.flag()});
        return {};
    });
    if (!found)
        return found.error();
    return patients;
}

} // namespace storage
