#pragma once

#include "core/base/result.h"
#include "core/records/ids.h"
#include "core/records/target.h"
#include "core/storage/store.h"

namespace storage
{

/// What patients want to reach. It only grows; every write is one durable transaction, in the name of the
/// store's user and now.
class Targets
{
public:
    explicit Targets(Store& store) : m_store(store) {}

    /// Adds a target, in place of an earlier one of the same measure and side. NotFound without the patient,
    /// Invalid where the value is no number or a day none of the calendar.
    base::Result<void> save(const records::PatientId& patient, const records::Target& target);
    /// No longer looks at the target of a measure and side. Refused without a reason and a second time,
    /// NotFound where there is none.
    base::Result<void> drop(const records::PatientId& patient, const QString& measure, records::Side side,
                            const QString& reason);
    /// Every one ever agreed, oldest first.
    base::Result<std::vector<records::Target>> ofPatient(const records::PatientId& patient) const;

    /// For an import, which notes it itself: as it is elsewhere, in the name and at the instant it carries.
    base::Result<void> bring(const records::PatientId& patient, const records::Target& target);

private:
    base::Result<void> add(const records::PatientId& patient, records::Target target);

    Store& m_store;
};

} // namespace storage
