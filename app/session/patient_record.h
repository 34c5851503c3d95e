#pragma once

#include "core/base/result.h"
#include "core/records/happening.h"
#include "core/records/target.h"
#include "core/records/visit.h"

#include <optional>
#include <vector>

namespace storage
{
class Store;
}

namespace session
{

/// The patient in focus with every version of every visit, event and target, as the records file holds them:
/// read from it again after each write, never patched.
class PatientRecord
{
public:
    /// Empty afterwards where it cannot be read.
    base::Result<void> read(storage::Store& store, const records::PatientId& id);
    /// The patient alone; the visits stay.
    base::Result<void> readPatient(storage::Store& store);
    /// One version of a visit alone; one of another patient is not taken.
    base::Result<void> readVisit(storage::Store& store, const records::VisitId& id);
    /// One finding of a version alone.
    base::Result<void> readFinding(storage::Store& store, const records::VisitId& id, const QString& measure,
                                   records::Side side);
    /// The events, and at which visits they were asked about, alone.
    base::Result<void> readHappenings(storage::Store& store);
    /// The targets alone.
    base::Result<void> readTargets(storage::Store& store);
    void clear() { *this = {}; }

    const records::Patient& patient() const { return m_patient; }
    const std::vector<records::Visit>& versions() const { return m_versions; }
    /// The versions that count, drafts too; oldest first.
    const std::vector<records::Visit>& visits() const { return m_visits ? *m_visits : onRecord(); }
    /// The same with the visits entered in error among them.
    const std::vector<records::Visit>& onRecord() const { return m_onRecord ? *m_onRecord : m_versions; }
    const std::vector<records::Happening>& happenings() const { return m_happenings; } ///< every version
    const std::vector<records::Asked>& asked() const { return m_asked; }
    const std::vector<records::Target>& targets() const { return m_targets; } ///< every one, oldest first

private:
    void choose();
    /// Does to the version in every list what `change` does to it.
    template <class Change>
    void inEveryList(const records::VisitId& id, Change change);

    records::Patient m_patient;
    std::vector<records::Visit> m_versions;
    std::optional<std::vector<records::Visit>> m_onRecord; ///< where a visit has several versions
    std::optional<std::vector<records::Visit>> m_visits;   ///< where one was entered in error
    std::vector<records::Happening> m_happenings;
    std::vector<records::Asked> m_asked;
    std::vector<records::Target> m_targets;
};

} // namespace session
