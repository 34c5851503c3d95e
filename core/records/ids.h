#pragma once

#include "core/base/id.h"

namespace records
{

struct Patient;
struct Visit;
struct Letter;
struct Happening;
struct Handover;

using PatientId = base::Id<Patient>;
using VisitId = base::Id<Visit>; ///< of one version of a visit
using LetterId = base::Id<Letter>;
using HappeningId = base::Id<Happening>; ///< of all versions of an event

} // namespace records
