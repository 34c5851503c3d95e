#pragma once

#include "app/session/session.h"
#include "core/base/phrasebook.h"

namespace session
{

/// Counts a period and writes what came of it where `path` says, as CSV where it ends so, else as PDF. Whole
/// or not at all; refused where `progress` stops it.
base::Result<void> writeServiceReport(const Session& session, const judging::Period& period,
                                      const QString& path, const base::Phrasebook& phrases,
                                      const records::Progress& progress = {});

} // namespace session
