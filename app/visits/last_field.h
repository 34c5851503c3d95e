#pragma once

#include "app/visits/examination.h"

namespace visits
{

// Where a draft was left, so that it opens there again. Kept in the settings of this computer by the visit's
// id alone.

Place lastField(const records::VisitId& visit); ///< an empty place when nothing is remembered
void rememberLastField(const records::VisitId& visit, const Place& place);
void forgetLastField(const records::VisitId& visit);

} // namespace visits
