#pragma once

#include "core/catalogue/measure.h"
#include "core/records/occasion.h"
#include "core/records/patient.h"

namespace records
{

/// Whether the clinician's word that the conditions of the measure were the same at these two visits stands.
bool isDeclaredEqual(const std::vector<DeclaredEqual>& declared, const QString& measure,
                     const VisitId& series, const VisitId& otherSeries);

/// Fills in at each occasion what its unrecorded conditions count as: what was recorded at a visit they were
/// declared equal to, also by way of others. Where nobody recorded a hard one, equal ones share a word of
/// their own.
void layDeclared(std::vector<Occasion>& occasions, const catalogue::Measure& measure,
                 const std::vector<DeclaredEqual>& declared);

} // namespace records
