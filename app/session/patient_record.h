#pragma once

#include "core/base/result.h"
#include "core/records/visit.h"

#include <vector>

namespace storage
{
class Store;
}

namespace session
{

/// The patient in focus with every version of every visit, as the records file holds them: read from it again
/// after each write, never patched.
class PatientRecord
{
public:
    /// Empty afterwards where it cannot be read.
    base::Result<void> read(storage::Store& store, const records::PatientId& id);
    /// The patient alone; the visits stay.
    base::Result<void> readPatient(storage::Store& store);
    /// One version of a visit alone; one of another patient is not taken.
    base::Result<void> readVisit(storage::Store& store, const records::VisitId& id);
    void clear() { *this = {}; }

    const records::Patient& patient() const { return m_patient; }
    const std::vector<records::Visit>& versions() const { return m_versions; }
    /// The versions that count, drafts too; oldest first.
    const std::vector<records::Visit>& visits() const { return m_visits; }
    /// The same with the visits entered in error among them.
    const std::vector<records::Visit>& onRecord() const { return m_onRecord; }

private:
    void choose();

    records::Patient m_patient;
    std::vector<records::Visit> m_versions;
    std::vector<records::Visit> m_visits;
    std::vector<records::Visit> m_onRecord;
};

} // namespace session
