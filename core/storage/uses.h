#pragma once

#include "core/base/result.h"
#include "core/records/visit.h"
#include "core/storage/store.h"

#include <vector>

namespace storage
{

/// A visit at which a measure was recorded, and no more of the person than is needed to find it.
struct Use {
    records::PatientId patient;
    QString family;
    QString given;
    QString recordNumber;
    records::VisitId visit; ///< the version that counts
    QDate day;

    bool operator==(const Use&) const = default;
};

/// The visits at which something was said about the measure, drafts too; newest day first.
base::Result<std::vector<Use>> uses(const Store& store, const QString& measure);

/// What was ever recorded of a measure, in every version of every visit.
base::Result<std::vector<records::Finding>> findingsOf(Store& store, const QString& measure);

} // namespace storage
