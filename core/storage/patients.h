#pragma once

#include "core/base/result.h"
#include "core/records/patient.h"
#include "core/records/summary.h"
#include "core/storage/store.h"

#include <QStringList>

#include <vector>

namespace storage
{

class Patients
{
public:
    explicit Patients(Store& store) : m_store(store) {}

    /// Inserts where the revision is 0, else updates. Gives back the patient with its new revision. Conflict
    /// when another has saved since, Invalid when the record number belongs to someone else.
    base::Result<records::Patient> save(const records::Patient& patient);
    /// Adds to the patient's choices, in the name of the store's user and now. Refused without a reason.
    base::Result<void> chooseEvidence(const records::PatientId& patient,
                                      const records::EvidenceChoice& choice);
    /// Adds to what was declared equal for the patient, in the name of the store's user and now. Refused
    /// without a reason, NotFound unless both visits are the patient's.
    base::Result<void> declareEqual(const records::PatientId& patient, const records::DeclaredEqual& word);
    /// Every threshold ever chosen for a patient.
    base::Result<QStringList> chosenThresholds() const;
    base::Result<records::Patient> withId(const records::PatientId& id) const;
    /// Empty when there is none.
    base::Result<std::optional<records::Patient>> withRecordNumber(const QString& number) const;
    base::Result<std::vector<records::PatientSummary>> all() const;

    /// For an import, which notes it itself: as it is elsewhere, in the name and at the instant it carries.
    base::Result<void> bring(const records::PatientId& patient, const records::EvidenceChoice& choice);
    base::Result<void> bring(const records::PatientId& patient, const records::DeclaredEqual& word);

private:
    Store& m_store;
};

} // namespace storage
