#pragma once

#include "app/session/session.h"
#include "app/visits/examination.h"

#include <functional>

namespace visits
{

/// A visit of the patient in focus, one entered in error too. nullptr where there is none.
const records::Visit* visitWithId(const session::Session& session, const records::VisitId& id);

/// The visit before this one, from which its conditions were carried forward. nullptr where there is none.
const records::Visit* visitBefore(const session::Session& session, const records::VisitId& id);

/// Writes a finding into a visit once it is checked; a blank one is taken out of the records instead.
base::Result<void> record(session::Session& session, const records::VisitId& visit,
                          const records::Finding& finding, session::Typing typing = session::Typing::Anew);

/// Changes what stands beside a value (signs, note, conditions); the value stays as it is.
base::Result<void> recordBeside(session::Session& session, const records::VisitId& visit, const Place& place,
                                const std::function<void(records::Finding&)>& change,
                                session::Typing typing = session::Typing::Anew);

/// Takes the value away; signs, note and conditions stay.
base::Result<void> recordNothing(session::Session& session, const records::VisitId& visit,
                                 const Place& place);

/// Gives a test its own value of a condition on every side; empty: as the visit.
base::Result<void> recordException(session::Session& session, const records::VisitId& visit,
                                   const QString& measure, const QString& condition, const QString& value);

/// Gives a visit another value of a condition; empty: not recorded. Conditions that were carried forward
/// still wait to be confirmed.
base::Result<void> recordCondition(session::Session& session, const records::VisitId& visit,
                                   const QString& condition, const QString& value);

} // namespace visits
