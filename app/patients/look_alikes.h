#pragma once

#include "core/records/patient.h"
#include "core/records/summary.h"

namespace patients
{

/// A patient on record who may be the one about to be made.
struct LookAlike {
    records::PatientSummary patient;
    bool hasSimilarName = false;
    bool hasSameBirthDate = false;
};

/// Whether two names may be one person's, written or ordered differently: equal when folded, up to two
/// letters apart (one in short names), or family and given name exchanged. The bounds are common practice, no
/// source.
bool isSimilarName(const QString& family, const QString& given, const QString& otherFamily,
                   const QString& otherGiven);

/// Those on record with a similar name or the same birth date, both first. The candidate itself is left out.
std::vector<LookAlike> lookAlikes(const records::Patient& candidate,
                                  const std::vector<records::PatientSummary>& onRecord);

} // namespace patients
