#pragma once

#include "core/base/result.h"
#include "core/records/finding.h"
#include "core/records/ids.h"
#include "core/storage/store.h"

#include <QSet>

namespace storage
{

/// What a draft held of a finding before an import wrote it.
struct FindingBefore {
    QString measure;
    records::Side side = records::Side::None;
    std::optional<int> trials; ///< 0: a value without trials; empty: the finding was not there
    bool capReached = false;

    bool operator==(const FindingBefore&) const = default;
};

/// One record that an import wrote.
struct ImportWrite {
    enum class Kind {
        NewPatient,
        Patient, ///< known before; the file filled in what was empty
        Visit,
        Amendment,
        Draft ///< further findings went into it
    };

    Kind kind = Kind::Visit;
    QString record;                         ///< its id
    int revision = 0;                       ///< as the import left it
    QStringList filled = {};                ///< of a patient
    std::vector<FindingBefore> before = {}; ///< of a draft

    bool operator==(const ImportWrite&) const = default;
};

struct Import {
    int number = 0;
    QString file; ///< its name without its folder
    QDateTime at; ///< UTC
    std::vector<ImportWrite> writes;
};

/// What imports wrote; it only grows.
class Imports
{
public:
    explicit Imports(Store& store) : m_store(store) {}

    base::Result<void> add(const QString& file, const std::vector<ImportWrite>& writes);
    /// The newest that is not taken back; empty where there is none.
    base::Result<std::optional<Import>> last() const;
    /// Marks it; what it wrote is another matter.
    base::Result<void> markTakenBack(int number);
    /// The ids of a patient's visits that were new with an import that is taken back.
    base::Result<QSet<QString>> takenBackVisits(const records::PatientId& patient) const;

private:
    Store& m_store;
};

} // namespace storage
