#pragma once

#include "core/base/message.h"
#include "core/records/finding.h"
#include "core/records/ids.h"
#include "core/records/visit_state.h"

#include <QDate>

namespace records
{

/// One measure on one side at one visit, with the conditions it was taken under.
struct Occasion {
    VisitId visit;
    QDate day;
    VisitState state = VisitState::Draft;
    Finding finding;
    Conditions conditions;       ///< the visit's, with the test's own exceptions
    base::Message computedFrom;  ///< how a computed value came about ("10 m in 12.50 s"), or what it lacks;
                                 ///< empty for one that was entered
    base::Id<Visit> series = {}; ///< of the visit, the same for all its versions
    Conditions declared = {};    ///< what conditions not recorded here count as, by a clinician's word
};

/// A finding of a visit as an occasion.
Occasion occasionOf(const Visit& visit, Finding finding);

/// Whether it holds a number with a unit, which alone have differences.
bool isNumber(const Occasion& occasion);

/// Whether something was said of it: a value, or why there is none. "Not asked" says nothing.
bool isAnswered(const Finding& finding);

} // namespace records
