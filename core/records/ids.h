#pragma once

#include "core/base/id.h"

namespace records
{

struct Patient;
struct Visit;
struct Letter;

using PatientId = base::Id<Patient>;
using VisitId = base::Id<Visit>; ///< of one version of a visit
using LetterId = base::Id<Letter>;

} // namespace records
