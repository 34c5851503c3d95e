#pragma once

#include "core/records/ids.h"

#include <QDate>

#include <optional>

namespace records
{

/// No more of a person than is needed to choose.
struct PatientSummary {
    PatientId id;
    QString family;
    QString given;
    QString recordNumber;
    std::optional<QDate> born;
    QString diagnosis;
    std::optional<QDate> lastVisit;
    int visits = 0;
    bool hasDraft = false; ///< a visit waits to be signed
};

/// A visit at which a measure was recorded, and no more of the person than is needed to find it.
struct Use {
    PatientId patient;
    QString family;
    QString given;
    QString recordNumber;
    VisitId visit; ///< the version that counts
    QDate day;

    bool operator==(const Use&) const = default;
};

} // namespace records
