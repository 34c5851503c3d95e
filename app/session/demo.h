#pragma once

#include "app/session/session.h"

namespace session
{

/// Fills an empty records file with an invented clinic and a dozen invented patients, marked demo, their last
/// visits of today. Refused where there are patients already.
base::Result<void> makeDemoClinic(Session& session);

} // namespace session
